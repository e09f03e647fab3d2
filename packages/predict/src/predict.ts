import { type FarFieldResult, type Progress, type Solution, solve } from '@sheetwave/field';
import type { Assembly } from '@sheetwave/geometry';
import { couplingOf } from './coupling.ts';
import { inDesignTerms } from './design-terms.ts';
import { farFieldFigures, patternCut } from './far-field-figures.ts';
import { gainCurves } from './gain-curve.ts';
import { bandMatches, matchedBands } from './match-figures.ts';
import { costOf, portsOf } from './plan-prediction.ts';
import type { PredictOptions } from './predict-options.ts';
import type { PredictedRun, Prediction } from './prediction.ts';
import { resonances } from './resonance-figures.ts';
import { responseOf } from './response-of.ts';
import { type SolverRequest, solverRequest } from './solver-request.ts';
import { targetFindings } from './target-findings.ts';

/**
 * What an antenna will do, from Maxwell's equations: match, gain and patterns of the very assembly that is made.
 *
 * @throws FieldError, in terms of the design, when it cannot be solved as asked, goes unstable or has not converged; the signal's
 *   reason after an abort.
 */
export async function predict(assembly: Assembly, options: PredictOptions = {}): Promise<Prediction> {
  const request = solverRequest(assembly, options);
  const solution = await solved(request, options);
  return predictionOf(assembly, request, { options, solution });
}

async function solved(
  { antenna, options: solving }: SolverRequest,
  { onProgress, twoMeshes }: PredictOptions,
): Promise<Solution> {
  const count = runCounter(antenna.ports.length * (twoMeshes ? 2 : 1), onProgress);
  try {
    return await solve(antenna.scene, { ...solving, ...(count ? { onProgress: count } : {}) });
  } catch (error) {
    throw inDesignTerms(error, antenna);
  }
}

/** The solver counts the steps of each run from 0: a count that falls begins the next run. */
function runCounter(
  runs: number,
  onProgress: PredictOptions['onProgress'],
): ((progress: Progress) => void) | undefined {
  if (!onProgress) return undefined;
  let [run, last] = [0, 0];
  return ({ step, steps, energyDb }) => {
    if (step < last) run = Math.min(run + 1, runs - 1);
    last = step;
    onProgress({ run, runs, step, steps, energyDb });
  };
}

interface Solved {
  readonly options: PredictOptions;
  readonly solution: Solution;
}

function predictionOf(assembly: Assembly, { antenna }: SolverRequest, { options, solution }: Solved): Prediction {
  const { design } = assembly;
  const { feed = 'as-built', quality = 'normal' } = options;
  const response = responseOf(solution, { quality, band: design.band });
  const figures = solution.farFields.map((result) => farFieldFigures(result, design));
  const gains = gainCurves(response, figures);
  const matches = bandMatches(response, design);
  const steps = solution.runs.reduce((sum, run) => sum + run.steps, 0);
  return {
    feed,
    quality,
    ports: portsOf(assembly, antenna.ports),
    response,
    zOhm: solution.z,
    resonances: resonances(response, solution),
    bands: matchedBands(response, design),
    matches,
    figures,
    gains,
    cuts: solution.farFields.flatMap((result) => cutsOf(result, assembly)),
    coupling: couplingOf(response, design),
    meshError: solution.meshError,
    cost: costOf({ report: solution.grid, symmetry: solution.symmetry }, { runs: solution.runs.length, steps }),
    runs: solution.runs.map(
      ({ port, steps: taken, end, energyDb }): PredictedRun => ({ port, steps: taken, end, energyDb }),
    ),
    doubts: antenna.doubts,
    findings: feed === 'as-built' ? targetFindings(design, { matches, gains }) : [],
  };
}

const cutsOf = (result: FarFieldResult, { design }: Assembly) => [
  patternCut(result, design, 'vertical'),
  patternCut(result, design, 'horizontal'),
];
