import type { Complex } from './complex.ts';
import { farFieldsOf } from './far-field-results.ts';
import { bestKernel } from './kernels/best-kernel.ts';
import { coarserRules, meshErrorOf } from './mesh-error.ts';
import { NO_METAL_FIELDS, sheetCurrents } from './metal-sampler.ts';
import { isNetMirrored } from './pattern.ts';
import { type Plan, planScene } from './plan-scene.ts';
import { mirrorColumn, mirrorFarField, type PortSource, portSources } from './port-sources.ts';
import { portImpedance, portSpectra, scatteringColumn } from './ports.ts';
import type { Progress } from './progress.ts';
import { type Run, type RunOptions, runPort } from './run-port.ts';
import type { Scene } from './scene.ts';
import type { Solution } from './solution.ts';
import { DEFAULT_STEP_DEGREES, type SolveOptions } from './solve-options.ts';

/**
 * Solves Maxwell's equations for a scene, one run for each port, or for each set of ports that mirror into each other.
 * Throws FieldError when the scene cannot be solved, when a run goes unstable, or when it has not converged; the reason of
 * the signal when it is aborted. Whatever happens, no worker is left.
 */
export async function solve(scene: Scene, options: SolveOptions): Promise<Solution> {
  const share = options.twoMeshes ? COARSE_SHARE : 0;
  const solution = await solveOnce(scene, options, { from: 0, to: 1 - share });
  if (!options.twoMeshes) return solution;
  const rules = coarserRules(options.quality ?? 'normal', options.rules ?? {});
  const coarseOptions = { ...options, rules, freqHz: solution.freqHz };
  const coarse = await solveOnce(scene, coarseOptions, { from: 1 - share, to: 1 });
  return { ...solution, meshError: meshErrorOf(solution, coarse) };
}

/** Part of the time that the second, coarser grid takes. */
const COARSE_SHARE = 0.2;

/** The part of all that is to be done which lies between two fractions. */
interface Stretch {
  readonly from: number;
  readonly to: number;
}

async function solveOnce(scene: Scene, options: SolveOptions, stretch: Stretch): Promise<Solution> {
  const plan = planScene(scene, options);
  const choice = kernelFor(options);
  const sources = portSources(scene.ports.length, plan.symmetry, { mirror: mayMirror(options) });
  const runs = new Map<number, Run>();
  const driven = [...new Set(sources.map((source) => source.driven))];
  for (const [n, port] of driven.entries()) {
    const onProgress = partOf(options.onProgress, stretch, { n, count: driven.length });
    runs.set(port, await runPort(plan, { ...options, ...choice, onProgress }, port));
  }
  return { ...answers(plan, options, { runs, sources }), ...(choice.reason ? { kernelReason: choice.reason } : {}) };
}

function kernelFor({ kernel, allocate, threads, signal }: SolveOptions): RunOptions & { readonly reason?: string } {
  return kernel ? { kernel, allocate } : bestKernel({ threads, signal });
}

/** Pictures are not mirrored: where they are wanted each port has its own run. */
const mayMirror = ({
  symmetry = true,
  currents = false,
  slices = [],
  stepDegrees = DEFAULT_STEP_DEGREES,
}: SolveOptions) => symmetry && !currents && slices.length === 0 && isNetMirrored(stepDegrees);

function partOf(
  onProgress: SolveOptions['onProgress'],
  { from, to }: Stretch,
  { n, count }: { readonly n: number; readonly count: number },
): ((progress: Progress) => void) | undefined {
  return onProgress && ((one) => onProgress({ ...one, fraction: from + ((to - from) * (n + one.fraction)) / count }));
}

interface Runs {
  readonly runs: ReadonlyMap<number, Run>;
  readonly sources: readonly PortSource[];
}

function answers(plan: Plan, options: SolveOptions, { runs, sources }: Runs): Solution {
  const { band, farFieldHz = [] } = options;
  const freqHz = options.freqHz ?? Array.from({ length: 201 }, (_, n) => band.low + ((band.high - band.low) * n) / 200);
  const referenceOhm = plan.model.scene.ports.map(({ resistance }) => resistance);
  const farFields = new Map([...runs].map(([port, run]) => [port, farFieldsOf(plan, options, run)]));
  const matrices = freqHz.map((freq) => {
    const spectra = new Map([...runs].map(([port, run]) => [port, portSpectra(run.traces, freq, run.tails)]));
    const known = [...spectra].map(
      ([port, one]) =>
        [port, { column: scatteringColumn(one, port, referenceOhm), z: portImpedance(one, port) }] as const,
    );
    const of = new Map(known);
    return sources.map((source) => {
      const { column, z } = of.get(source.driven) as { column: Complex[]; z: Complex };
      return { column: mirrorColumn(column, source), z };
    });
  });
  const all = [...runs.values()];
  return {
    grid: plan.report,
    symmetry: plan.symmetry,
    freqHz,
    referenceOhm,
    s: matrices.map((ports) => transpose(ports.map(({ column }) => column))),
    z: matrices.map((ports) => ports.map(({ z }) => z)),
    farFields: sources.flatMap((source, port) =>
      (farFields.get(source.driven) ?? []).map((result) => mirrorFarField(result, source, port)),
    ),
    currents: all.map(({ samplers }) =>
      options.currents
        ? farFieldHz.flatMap((freq, n) => sheetCurrents(samplers?.metal.fields[n] ?? NO_METAL_FIELDS, freq))
        : [],
    ),
    slices: all.map(({ samplers }) => samplers?.slices.slices ?? []),
    runs: all.map(({ report }) => report),
    runOfPort: sources.map(({ driven }) => all.findIndex(({ port }) => port === driven)),
  };
}

const transpose = (columns: readonly (readonly Complex[])[]): Complex[][] =>
  columns.map((_, to) => columns.map((column) => column[to] as Complex));
