import { solveSymmetric } from '@sheetwave/rf';
import { costOf } from './goal.ts';
import { type Problem, pointOf, type State, sizesIn, sizesOf } from './problem.ts';
import { searchBox } from './search.ts';
import type { SizingStep } from './size-design.ts';
import { expectedGain, expectedReflection, type Surrogate } from './surrogate.ts';
import { allowedSize, type Variable } from './variables.ts';

const LEAST_REACH = 0.12;
/** Less is not worth a field solution, unless the goal is so near that a share of what is missing is. */
const LEAST_GAIN = 0.012;
const LEAST_SHARE = 0.2;

const worthSolving = ({ score }: SizingStep): number => Math.min(LEAST_GAIN, Math.max(0.002, LEAST_SHARE * score.cost));
const SEED = 20_260_517;

/** What to solve next. */
export interface Candidate {
  readonly sizesMm: readonly number[];
  /** True when it is solved to learn from, not because it should be better. */
  readonly explores: boolean;
}

/** How far two points are apart, in the variable that differs most. */
export const apart = (a: readonly number[], b: readonly number[]): number =>
  Math.max(...a.map((value, i) => Math.abs(value - (b[i] ?? 0))));

/**
 * Where the surrogate expects the least. After an expectation that failed, and where it expects nothing better, first the places that
 * teach it most. Undefined when neither is left.
 */
export function nextCandidate(
  problem: Problem,
  state: State,
  at: { best: SizingStep; surrogate: Surrogate },
): Candidate | undefined {
  const { variables } = problem;
  const tried = [...state.samples.values()].map(({ point }) => point);
  const known = (sizesMm: readonly number[]) => {
    const point = pointOf(variables, sizesMm);
    return [...tried, ...state.refused].some((other) => apart(other, point) < 0.02);
  };
  if (state.lessons > 0) {
    state.lessons -= 1;
    const lesson = lessonAt(problem, state, at, known);
    if (lesson !== undefined) return { sizesMm: lesson, explores: true };
    state.lessons = 0;
  }
  for (; state.reach >= LEAST_REACH; state.reach *= 0.6) {
    const sizesMm = expectedBest(problem, state, at);
    const promised = at.best.score.cost - expectedCost(problem, at.surrogate, pointOf(variables, sizesMm));
    if (!known(sizesMm) && promised > worthSolving(at.best)) return { sizesMm, explores: false };
    const lesson = lessonAt(problem, state, at, known);
    if (lesson !== undefined) return { sizesMm: lesson, explores: true };
  }
  return isFar(at.best) ? freshLook(problem, state, at, known) : undefined;
}

/** So far from the goal that slopes which were learned elsewhere are not to be trusted with an end. */
const isFar = ({ score }: SizingStep): boolean => score.cost > 0.15;

/** A step from the best along the variable that is known least, well known or not; the search then goes on from a small reach. */
function freshLook(
  problem: Problem,
  state: State,
  at: { best: SizingStep; surrogate: Surrogate },
  known: (sizesMm: readonly number[]) => boolean,
): Candidate | undefined {
  const lesson = lessonAt(problem, state, at, known, 0);
  state.reach = 3 * LEAST_REACH;
  return lesson && { sizesMm: lesson, explores: true };
}

/** Cost that the surrogate expects at a point. */
export function expectedCost({ goal, bandHz }: Problem, surrogate: Surrogate, point: readonly number[]): number {
  return costOf(goal, expectedReflection(surrogate, point, bandHz), expectedGain(surrogate, point));
}

/** The size of stock next to this one, below or above. */
function neighbour({ sizesMm = [] }: Variable, mm: number, sign: 1 | -1): number | undefined {
  const sorted = sign > 0 ? sizesMm : [...sizesMm].reverse();
  return sorted.find((size) => sign * (size - mm) > 1e-9);
}

/** Where a way along a variable ends, and at least at the next size that may be chosen. */
function reachedFrom(variable: Variable, mm: number, wayMm: number): number {
  const reached = mm + wayMm;
  if (variable.sizesMm === undefined) return reached;
  const next = neighbour(variable, mm, wayMm > 0 ? 1 : -1) ?? mm;
  return wayMm > 0 ? Math.max(reached, next) : Math.min(reached, next);
}

/** The box around the best: the reach on each side, and at least the next size of stock. */
function boxAround(
  { variables }: Problem,
  { ends, reach }: Pick<State, 'ends' | 'reach'>,
  best: readonly number[],
): { low: number[]; high: number[] } {
  const side = (variable: Variable, index: number, sign: 1 | -1): number => {
    const mm = best[index] ?? variable.startMm;
    const known = ends.get(index);
    const end = sign > 0 ? (known?.highMm ?? variable.highMm) : (known?.lowMm ?? variable.lowMm);
    const wanted = reachedFrom(variable, mm, sign * reach * variable.scaleMm);
    const limited = sign > 0 ? Math.min(end, wanted) : Math.max(end, wanted);
    return (limited - variable.startMm) / variable.scaleMm;
  };
  return {
    low: variables.map((variable, i) => side(variable, i, -1)),
    high: variables.map((variable, i) => side(variable, i, 1)),
  };
}

function expectedBest(
  problem: Problem,
  state: State,
  { best, surrogate }: { best: SizingStep; surrogate: Surrogate },
): readonly number[] {
  const { variables } = problem;
  const box = boxAround(problem, state, sizesIn(problem, best));
  const cost = (point: readonly number[]): number => {
    const written = pointOf(variables, sizesOf(variables, point));
    const barred = state.refused.some((other) => apart(other, written) < 0.25);
    return expectedCost(problem, surrogate, written) + (barred ? 10 : 0);
  };
  const found = searchBox({ ...box, cost, starts: [surrogate.base.point], seed: SEED + state.steps.length });
  return sizesOf(variables, found.point);
}

/** Enough to tell a slope from what the chain leaves unsaid, near enough to be the slope here. */
const LESSON = 0.7;
/** A slope that is known to less than half of what it was before anything was solved is worth a solution. */
const UNKNOWN = 0.3;
/** What a sample leaves of the doubt about a slope when it is a unit away: the square of its own doubt over that of the prior. */
const LEFT = 0.01;

/** How much of the doubt about each slope is left, 0 to 1 (variances of the regression behind the surrogate, all parameters alike). */
function doubts(state: State, here: readonly number[]): readonly number[] {
  const moves = [...state.samples.values()]
    .map(({ point }) => point.map((value, i) => value - (here[i] ?? 0)))
    .filter((move) => Math.max(...move.map(Math.abs)) < 3);
  const normal = here.map((_, i) =>
    here.map((__, j) => moves.reduce((sum, move) => sum + ((move[i] ?? 0) * (move[j] ?? 0)) / LEFT, i === j ? 1 : 0)),
  );
  const unit = here.map((_, k) => here.map((__, i) => (i === k ? 1 : 0)));
  const inverse = solveSymmetric(normal, unit);
  return here.map((_, i) => inverse?.[i]?.[i] ?? 1);
}

/** A step along the variable whose slopes are least known, to the side that the surrogate likes better; undefined when all are known. */
function lessonAt(
  problem: Problem,
  state: State,
  { best, surrogate }: { best: SizingStep; surrogate: Surrogate },
  known: (sizesMm: readonly number[]) => boolean,
  unknown = UNKNOWN,
): readonly number[] | undefined {
  const doubt = doubts(state, surrogate.base.point);
  const order = doubt
    .map((value, index) => ({ value, index }))
    .filter(({ value }) => value > unknown)
    .sort((a, b) => b.value - a.value);
  for (const { index } of order) {
    const lesson = stepAlong(problem, { best, surrogate, end: state.ends.get(index) }, index);
    if (lesson !== undefined && !known(lesson)) return lesson;
  }
  return undefined;
}

interface Standing {
  readonly best: SizingStep;
  readonly surrogate: Surrogate;
  readonly end: { readonly lowMm: number; readonly highMm: number } | undefined;
}

function stepAlong(problem: Problem, { best, surrogate, end }: Standing, index: number): readonly number[] | undefined {
  const { variables } = problem;
  const variable = variables[index];
  if (variable === undefined) return undefined;
  const sizes = sizesIn(problem, best);
  const mm = sizes[index] ?? variable.startMm;
  const choices = ([1, -1] as const).map((sign) => {
    const wanted = reachedFrom(variable, mm, sign * LESSON * variable.scaleMm);
    const allowed = Math.min(end?.highMm ?? wanted, Math.max(end?.lowMm ?? wanted, wanted));
    const sizesMm = sizes.map((own, i) => (i === index ? allowedSize(variable, allowed) : own));
    const moved = Math.abs((sizesMm[index] ?? mm) - mm);
    return { sizesMm, moved, cost: expectedCost(problem, surrogate, pointOf(variables, sizesMm)) };
  });
  const useful = choices.filter(({ moved }) => moved > 0.2 * variable.scaleMm).sort((a, b) => a.cost - b.cost);
  return useful[0]?.sizesMm;
}
