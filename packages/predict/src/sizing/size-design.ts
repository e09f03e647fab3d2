import { type Design, type Finding, readDesign } from '@sheetwave/design';
import type { Response } from '@sheetwave/rf';
import { bandFrequencies, costOf, type Goal, goalOf, type Score } from './goal.ts';
import { guidedSizes } from './guided-start.ts';
import { limitsOf, type SizingLimits } from './limits.ts';
import { designWith, learnEnds } from './makeable.ts';
import { apart, nextCandidate } from './next-candidate.ts';
import { priorSlopes } from './prior-slopes.ts';
import { type Problem, pointOf, type State } from './problem.ts';
import { roundOff } from './round-off.ts';
import { bestOf, sampleOf, solveAt, surrogateOf } from './solve-candidate.ts';
import { startingAt, variablesOf } from './variables.ts';

/** One field solution on the way. */
export interface SizingStep {
  /** From 1. */
  readonly solve: number;
  /** Text of the design that was solved. */
  readonly text: string;
  /** By the path of each free dimension, mm. */
  readonly sizesMm: Readonly<Record<string, number>>;
  readonly score: Score;
  /** Reflection that the surrogate had expected; undefined for the start. */
  readonly expected: number | undefined;
  /** True when it is the best so far. */
  readonly best: boolean;
  readonly response: Response;
}

/** A field solution as sizing uses it. */
export interface SolvedDesign {
  /** Reflection at the coax over the band and some per cent beyond. */
  readonly response: Response;
  /** Least realised gain within the band, dBi; undefined when it was not asked for. */
  readonly gainDbi?: number | undefined;
}

/** Field solutions that a sizing may cost when nobody says how many. */
const DEFAULT_BUDGET = 25;

export interface SizingOptions {
  /** Text of the design file, with its `[free]`. */
  readonly designText: string;
  /** Drawings that the design names. */
  readonly files?: Readonly<Record<string, string>>;
  /** Undefined when the solver gives no answer for this one: it is then left out. What it throws after the signal ends the sizing with the best so far. */
  readonly solve: (design: Design) => Promise<SolvedDesign | undefined>;
  /** Most field solutions, the rounded ones among them. Default 25. */
  readonly budget?: number;
  /** In the end put lengths on multiples of this, mm, and solve once more. */
  readonly roundMm?: number | undefined;
  /** Told after every field solution. */
  readonly onStep?: (step: SizingStep) => void | Promise<void>;
  /** Ends it after the solution in hand. */
  readonly signal?: AbortSignal | undefined;
}

export interface Sizing {
  readonly ok: true;
  readonly goal: Goal;
  readonly steps: readonly SizingStep[];
  readonly start: SizingStep;
  /** The best of `steps`, or, when rounding was asked for, the rounded one. */
  readonly best: SizingStep;
  /** The best before rounding; undefined when none was asked for. */
  readonly unrounded: SizingStep | undefined;
  readonly ended: 'reached' | 'budget' | 'no-better' | 'interrupted';
  readonly reached: boolean;
  /** What keeps it from the goal; empty when it is reached, or was before rounding. */
  readonly limits: SizingLimits;
}

export type SizingResult = Sizing | { readonly ok: false; readonly findings: readonly Finding[] };
/** The goal is passed by this share of the reflection, so that the next mesh or a hair of filing does not undo it. */
const MARGIN = 0.04;
const FIRST_REACH = 1.5;
/** Solutions to learn from after a failure: the doubt that was largest is mostly the one that failed. */
const LESSONS = 2;
/** A reach is not cut below this by a failure alone: what was learned since may be worth it. */
const LEAST_TRIED = 0.3;
const LARGEST_REACH = 4;

function refusal(code: string, allowed: string, remedy: string): SizingResult {
  return { ok: false, findings: [{ code, severity: 'error', path: 'free', value: '', allowed, remedy }] };
}

/** The start, brought into the ranges, cannot be made, or the solver gives no answer for it. */
function startRefused(problem: Problem): SizingResult {
  const made = designWith(
    problem,
    problem.variables.map(({ startMm }) => startMm),
  );
  if ('why' in made) {
    const allowed = `starts from sizes that cannot be made: ${made.why}`;
    return refusal('start-not-makeable', allowed, 'correct the ranges, or the sizes that the design has now');
  }
  return refusal(
    'start-not-solved',
    'starts from a design that the field solver gives no answer for',
    'predict it first',
  );
}

/**
 * Changes the free dimensions of a design until its band, VSWR and gain are met. Where a single stack is far from its band, it first
 * tries sizes known to suit such stacks, and begins from the better of the two.
 *
 * The field solver decides; a circuit steers. Each solution is described by a chain of resonators, whose parameters are taken to follow
 * the free dimensions in straight lines; the search goes where that surrogate, which agrees with the best solution exactly, expects the
 * least reflection, within a reach that grows while expectations come true and shrinks when they do not. Methods: implicit and output
 * space mapping (Bandler, Cheng, Nikolova and Ismail, IEEE Trans. MTT-52 (2004) 378; review: Bandler et al., ibid. 337), the slopes by
 * Bayesian regression from those of closed forms instead of Broyden's update; what the circuit cannot follow is learned beside it (manifold
 * mapping, Echeverria and Hemker, Comput. Methods Appl. Math. 5 (2005) 107), in a trust region (Alexandrov, Dennis, Lewis and Torczon,
 * Struct. Optim. 15 (1998) 16); all memory.
 *
 * Costs at most `budget` calls of `solve`. A candidate that cannot be made is never solved. Findings when nothing is free or the text is no design.
 */
export async function sizeDesign(options: SizingOptions): Promise<SizingResult> {
  const { designText, files, budget = DEFAULT_BUDGET } = options;
  const { design, findings } = readDesign(designText, files === undefined ? {} : { files });
  if (design === undefined) return { ok: false, findings };
  if (design.free.length === 0) {
    return refusal(
      'nothing-free',
      'says nothing that sizing may change',
      'add [free] with ranges, such as layer.driven.length = { from = "16 mm", to = "21 mm" }',
    );
  }
  const goal = goalOf(design);
  const problem: Problem = {
    options,
    variables: variablesOf(design.free),
    goal,
    centreHz: Math.sqrt(goal.lowHz * goal.highHz),
    bandHz: bandFrequencies(goal),
    budget,
  };
  const state: State = {
    steps: [],
    samples: new Map(),
    refused: [],
    ends: new Map(),
    resonators: design.layers.length + (design.harness.kind === 'none' ? 0 : 1),
    prior: [],
    reach: FIRST_REACH,
    lessons: 0,
  };
  const first = await solveAt(problem, state, startOf(problem), undefined);
  if (first === undefined) return startRefused(problem);
  const most = budget - (options.roundMm === undefined ? 0 : 1);
  const guided = most > 1 && isFarOff(first) ? await guidedStart(problem, state, design) : undefined;
  const from = guided ?? problem;
  state.prior = priorSlopes(from, state, bestOf(state.steps));
  return finished(from, state, await improve(from, state, most));
}

const startOf = ({ variables }: Problem): readonly number[] => variables.map(({ startMm }) => startMm);

/** VSWR above 3 somewhere in the band: a circuit fitted there says little of where the band can be met. */
const isFarOff = ({ score }: SizingStep): boolean => score.reflection > 0.5;

/** Solves the start that is known to suit such a stack. When it is the better one, what to go on with: the same, counted from there. */
async function guidedStart(problem: Problem, state: State, design: Design): Promise<Problem | undefined> {
  const { variables, centreHz, options } = problem;
  const sizesMm = guidedSizes(design, variables, centreHz);
  if (sizesMm === undefined || apart(pointOf(variables, sizesMm), pointOf(variables, startOf(problem))) < 0.5)
    return undefined;
  const step = await solveAt(problem, state, sizesMm, undefined).catch((error: unknown) => {
    if (!options.signal?.aborted) throw error;
    return undefined;
  });
  if (step?.best !== true) return undefined;
  const moved = { ...problem, variables: variables.map((variable, i) => startingAt(variable, sizesMm[i] ?? 0)) };
  state.samples.clear();
  state.samples.set(step, sampleOf(moved, state, { step, point: sizesMm.map(() => 0), expected: undefined }));
  return moved;
}

async function improve(problem: Problem, state: State, budget: number): Promise<Sizing['ended']> {
  const { options, goal } = problem;
  const enough = MARGIN * -1;
  for (;;) {
    const best = bestOf(state.steps);
    if (best.score.cost <= enough) return 'reached';
    if (options.signal?.aborted) return 'interrupted';
    if (state.steps.length >= budget) return best.score.cost <= 0 ? 'reached' : 'budget';
    const surrogate = surrogateOf(problem, state, best);
    const candidate = nextCandidate(problem, state, { best, surrogate });
    if (candidate === undefined) return best.score.cost <= 0 ? 'reached' : 'no-better';
    const step = await solveAt(problem, state, candidate.sizesMm, surrogate).catch((error: unknown) => {
      if (!options.signal?.aborted) throw error;
      return 'interrupted' as const;
    });
    if (step === 'interrupted') return step;
    if (step === undefined) learnEnds(problem, state, { best, sizesMm: candidate.sizesMm });
    else if (!candidate.explores) adjustReach(state, { before: best, after: step, goal });
  }
}

function adjustReach(
  state: State,
  { before, after, goal }: { before: SizingStep; after: SizingStep; goal: Goal },
): void {
  const promised = before.score.cost - costOf(goal, after.expected ?? 0, undefined);
  const gained = before.score.cost - after.score.cost;
  const truth = promised > 0 ? gained / promised : -1;
  if (truth > 0.6) state.reach = Math.min(LARGEST_REACH, state.reach * 1.6);
  else if (truth < 0.25) {
    state.reach = Math.max(state.reach * 0.55, LEAST_TRIED);
    state.lessons = LESSONS;
  }
}

async function finished(problem: Problem, state: State, ended: Sizing['ended']): Promise<Sizing> {
  const best = bestOf(state.steps);
  const rounded =
    problem.options.roundMm === undefined || ended === 'interrupted' ? undefined : await roundOff(problem, state, best);
  const [start = best] = state.steps;
  const chosen = rounded ?? best;
  const reached = chosen.score.cost <= 0;
  const base = state.samples.get(best);
  // What a circuit is limited by does not tell what rounding cost.
  const isSpoilt = best.score.cost <= 0;
  return {
    ok: true,
    goal: problem.goal,
    steps: state.steps,
    start,
    best: chosen,
    unrounded: problem.options.roundMm === undefined ? undefined : best,
    ended,
    reached,
    limits:
      reached || isSpoilt || base === undefined
        ? { atEnd: [], sentences: [] }
        : limitsOf(problem, { step: chosen, sample: base, ends: state.ends }),
  };
}
