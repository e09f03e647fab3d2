import { type Design, type Finding, readDesign } from '@sheetwave/design';
import {
  chainReflection,
  fitChain,
  portReflection,
  type ResonatorChain,
  type Response,
  samplesAt,
} from '@sheetwave/rf';
import { coarseParameters } from './coarse.ts';
import { bandFrequencies, costOf, type Goal, goalOf, type Score, scoreOf } from './goal.ts';
import { limitsOf, type SizingLimits } from './limits.ts';
import { designWith, learnEnds } from './makeable.ts';
import { apart, expectedCost, nextCandidate } from './next-candidate.ts';
import { type Problem, pointOf, type State, sizesIn } from './problem.ts';
import { expectedReflection, parametersAt, type Sample, type Surrogate, surrogateAround } from './surrogate.ts';
import { allowedSize, roundedVariable, type Variable, variablesOf, withSizes } from './variables.ts';

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
const DEFAULT_BUDGET = 25;
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
 * Changes the free dimensions of a design until its band, VSWR and gain are met.
 *
 * The field solver decides; a circuit steers. Each solution is described by a chain of resonators, whose parameters are taken to follow
 * the free dimensions in straight lines; the search goes where that surrogate, which agrees with the best solution exactly, expects the
 * least reflection, within a reach that grows while expectations come true and shrinks when they do not. Methods: implicit and output
 * space mapping (Bandler, Cheng, Nikolova and Ismail, IEEE Trans. MTT-52 (2004) 378; review: Bandler et al., ibid. 337), the slopes by
 * Bayesian regression from those of closed forms instead of Broyden's update, in a trust region (Alexandrov, Dennis, Lewis and Torczon,
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
  const first = await solveAt(
    problem,
    state,
    problem.variables.map(({ startMm }) => startMm),
    undefined,
  );
  if (first === undefined) return startRefused(problem);
  state.prior = priorSlopes(problem, state, first);
  const ended = await improve(problem, state, budget - (options.roundMm === undefined ? 0 : 1));
  return finished(problem, state, ended);
}

const bestOf = (steps: readonly SizingStep[]): SizingStep => {
  const [first, ...more] = steps;
  if (first === undefined) throw new Error('there is a first solution');
  return more.reduce((a, b) => (b.score.cost < a.score.cost ? b : a), first);
};

/** Solves a candidate, if it can be made, and keeps what the surrogate needs of it. */
async function solveAt(
  problem: Problem,
  state: State,
  sizesMm: readonly number[],
  expected: Surrogate | undefined,
): Promise<SizingStep | undefined> {
  const { options, variables, goal } = problem;
  const made = designWith(problem, sizesMm);
  if ('why' in made) return undefined;
  const { design, text } = made;
  const solved = await options.solve(design);
  if (solved === undefined) return undefined;
  const { response, gainDbi } = solved;
  const score = scoreOf(response, gainDbi, goal);
  const point = pointOf(variables, sizesMm);
  const before = state.steps.length === 0 ? undefined : bestOf(state.steps);
  const step: SizingStep = {
    solve: state.steps.length + 1,
    text,
    sizesMm: Object.fromEntries(variables.map(({ path }, i) => [path, sizesMm[i] ?? 0])),
    score,
    expected: expected && expectedReflection(expected, point, problem.bandHz),
    best: before === undefined || score.cost < before.score.cost,
    response,
  };
  state.steps.push(step);
  state.samples.set(step, sampleOf(problem, state, { step, point, expected }));
  await options.onStep?.(step);
  return step;
}

interface Taken {
  readonly step: SizingStep;
  readonly point: readonly number[];
  readonly expected: Surrogate | undefined;
}

function sampleOf(problem: Problem, state: State, taken: Taken): Sample {
  const { bandHz } = problem;
  const { step, point } = taken;
  const reflection = portReflection(step.response);
  const { freqHz, referenceOhm } = step.response;
  const chain = chainOf(problem, state, { ...taken, data: { freqHz, reflection, referenceOhm } });
  const found = chainReflection(chain, bandHz);
  const rest = samplesAt(freqHz, reflection, bandHz).map(({ re, im }, k) => ({
    re: re - (found[2 * k] ?? 0),
    im: im - (found[2 * k + 1] ?? 0),
  }));
  return { point, chain, rest, gainDbi: step.score.gainDbi };
}

/** How far the chain may go from what the closed forms say of a design before that costs as much as a sample missed by 1. */
function coarseSpreads(resonators: number): readonly number[] {
  const own = [0.5, 0.25];
  const links = Array.from({ length: resonators }, (_, i) => (i === 0 ? own : [0.1, 0.05, ...own]));
  return [0.25, 1.5, 0.5, 0.25, ...links.flat()];
}

/**
 * Without a harness the chain stays near what closed forms say of the design: its resonators then stand for the patches, change with their
 * sizes as these do, and what is left unsaid stays nearly the same from design to design. Behind a harness no resonator is a patch: the
 * chain has one more than there are layers, and stays near what the samples before led to expect.
 */
function chainOf(
  { centreHz, options }: Problem,
  state: State,
  { step, point, expected, data }: Taken & { readonly data: Parameters<typeof fitChain>[0] },
): ResonatorChain {
  const { resonators } = state;
  const { design } = readDesign(step.text, options.files === undefined ? {} : { files: options.files });
  const coarse = design?.harness.kind === 'none' ? coarseParameters(design, centreHz, resonators) : undefined;
  if (coarse) return fitChain(data, { centreHz, resonators, near: coarse, spreads: coarseSpreads(resonators) }).chain;
  return fitChain(data, { centreHz, resonators, near: expected && parametersAt(expected, point) }).chain;
}

/** Slopes of the closed forms, per unit of each variable, by small differences. */
function priorSlopes(problem: Problem, { resonators }: State, start: SizingStep): readonly (readonly number[])[] {
  const { variables, options, centreHz } = problem;
  const share = 0.2;
  const sizes = sizesIn(problem, start);
  const at = (index: number, sign: number): readonly number[] | undefined => {
    const moved = sizes.map((mm, i) => (i === index ? mm + sign * share * (variables[i]?.scaleMm ?? 0) : mm));
    const design = readDesign(start.text, options.files === undefined ? {} : { files: options.files }).design;
    const variable = variables[index];
    if (design === undefined || variable === undefined) return undefined;
    const edit = variable.ids === undefined ? withSizes(start.text, [variable], [moved[index] ?? 0]) : undefined;
    const changed = edit?.ok
      ? readDesign(edit.text, options.files === undefined ? {} : { files: options.files }).design
      : variable.ids && withSpacer(design, variable, moved[index] ?? 0);
    return changed && coarseParameters(changed, centreHz, resonators);
  };
  const columns = variables.map((_, index) => {
    const [up, down] = [at(index, 1), at(index, -1)];
    return up?.map((value, row) => (down === undefined ? 0 : (value - (down[row] ?? value)) / (2 * share)));
  });
  const rows = 4 * resonators + 2;
  return Array.from({ length: rows }, (_, row) => columns.map((column) => column?.[row] ?? 0));
}

/** A spacer between two sizes of stock, for a slope. */
function withSpacer(design: Design, { path }: Variable, mm: number): Design | undefined {
  const index = Number(/^layer\[(\d+)\]\.spacer$/.exec(path)?.[1] ?? -1);
  const layer = design.layers[index];
  if (layer?.spacer?.kind !== 'stock') return undefined;
  const spacer = { kind: 'stock', spacer: { ...layer.spacer.spacer, bodyMm: mm } } as const;
  return { ...design, layers: design.layers.map((own, i) => (i === index ? { ...own, spacer } : own)) };
}

async function improve(problem: Problem, state: State, budget: number): Promise<Sizing['ended']> {
  const { options, goal } = problem;
  const enough = MARGIN * -1;
  for (;;) {
    const best = bestOf(state.steps);
    if (best.score.cost <= enough) return 'reached';
    if (options.signal?.aborted) return 'interrupted';
    if (state.steps.length >= budget) return best.score.cost <= 0 ? 'reached' : 'budget';
    const surrogate = surrogateOf(state, best);
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

function surrogateOf(state: State, best: SizingStep): Surrogate {
  const base = state.samples.get(best);
  if (base === undefined) throw new Error('every solution has its sample');
  return surrogateAround(base, [...state.samples.values()], state.prior);
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

/** Choices of rounded sizes that are solved, when the first spoils the goal and the budget has room. */
const ROUNDED_TRIES = 3;

/** Rounded sizes beside the best: those that the surrogate likes best, as the field solver sees them; others when they spoil the goal. */
async function roundOff(problem: Problem, state: State, best: SizingStep): Promise<SizingStep | undefined> {
  const { options } = problem;
  const wanted = best.score.cost <= 0 ? 0 : best.score.cost;
  const rounded: SizingStep[] = [];
  for (let tries = 0; tries < ROUNDED_TRIES; tries++) {
    const step = await roundedOnce(problem, state, { best, rounded });
    if (step !== undefined) rounded.push(step);
    const isSpent = state.steps.length >= (options.budget ?? DEFAULT_BUDGET);
    if (step === undefined || step.score.cost <= wanted || isSpent || options.signal?.aborted) break;
  }
  return rounded.length === 0 ? undefined : bestOf(rounded);
}

/** The best choice of rounded sizes that can be made and is not among `rounded`, by the surrogate; solved if it was not yet. */
async function roundedOnce(
  problem: Problem,
  state: State,
  { best, rounded }: { readonly best: SizingStep; readonly rounded: readonly SizingStep[] },
): Promise<SizingStep | undefined> {
  const { variables, options } = problem;
  const sizes = sizesIn(problem, best);
  const coarse = variables.map((variable, i) => roundedVariable(variable, sizes[i] ?? 0, options.roundMm ?? 0.1));
  const surrogate = surrogateOf(state, best);
  const tried = rounded.map((step) => pointOf(variables, sizesIn(problem, step)));
  const isTried = (point: readonly number[]) => tried.some((other) => apart(other, point) < 1e-9);
  const choice = cheapestChoice(coarse, sizes, (sizesMm) => {
    const point = pointOf(variables, sizesMm);
    const isBarred = isTried(point) || 'why' in designWith(problem, sizesMm);
    return expectedCost(problem, surrogate, point) + (isBarred ? BARRED : 0);
  });
  const point = pointOf(variables, choice);
  if (isTried(point)) return undefined;
  const same = state.steps.find((step) => apart(pointOf(variables, sizesIn(problem, step)), point) < 1e-9);
  return same ?? solveAt(problem, state, choice, surrogate);
}

/** More than any reflection costs. */
const BARRED = 1000;

/** From the nearest allowed sizes, one variable at a time to another of theirs, as long as that is cheaper. */
function cheapestChoice(
  variables: readonly Variable[],
  nearMm: readonly number[],
  costAt: (sizesMm: readonly number[]) => number,
): readonly number[] {
  const known = new Map<string, number>();
  const cost = (sizesMm: readonly number[]): number => {
    const key = sizesMm.join();
    const found = known.get(key) ?? costAt(sizesMm);
    known.set(key, found);
    return found;
  };
  let choice = variables.map((variable, i) => allowedSize(variable, nearMm[i] ?? 0));
  for (let improved = true; improved; ) {
    improved = false;
    for (const [i, variable] of variables.entries()) {
      for (const mm of variable.sizesMm ?? []) {
        const other = choice.map((own, k) => (k === i ? mm : own));
        if (cost(other) >= cost(choice) - 1e-9) continue;
        choice = other;
        improved = true;
      }
    }
  }
  return choice;
}
