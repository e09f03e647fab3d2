import { costOf } from './goal.ts';
import { type Problem, pointOf, type State, sizesIn, sizesOf } from './problem.ts';
import { searchBox } from './search.ts';
import type { SizingStep } from './size-design.ts';
import { expectedGain, expectedReflection, type Surrogate } from './surrogate.ts';
import { allowedSize, type Variable } from './variables.ts';

const LEAST_REACH = 0.12;
/** Less is not worth a field solution. */
const LEAST_GAIN = 0.012;
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

/** Where the surrogate expects the least; where it expects nothing better, a place that teaches it most; undefined when neither is left. */
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
  for (; state.reach >= LEAST_REACH; state.reach *= 0.6) {
    const sizesMm = expectedBest(problem, state, at);
    const promised = at.best.score.cost - expectedCost(problem, at.surrogate, pointOf(variables, sizesMm));
    if (!known(sizesMm) && promised > LEAST_GAIN) return { sizesMm, explores: false };
    const lesson = lessonAt(problem, state, at);
    if (lesson !== undefined && !known(lesson)) return { sizesMm: lesson, explores: true };
  }
  return undefined;
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

/** The box around the best: the reach on each side, and at least the next size of stock. */
function boxAround({ variables }: Problem, best: readonly number[], reach: number): { low: number[]; high: number[] } {
  const side = (variable: Variable, mm: number, sign: 1 | -1): number => {
    const end = sign > 0 ? variable.highMm : variable.lowMm;
    const reached = mm + sign * reach * variable.scaleMm;
    const next = variable.sizesMm === undefined ? reached : (neighbour(variable, mm, sign) ?? mm);
    const wanted = sign > 0 ? Math.max(reached, next) : Math.min(reached, next);
    const limited = sign > 0 ? Math.min(end, wanted) : Math.max(end, wanted);
    return (limited - variable.startMm) / variable.scaleMm;
  };
  return {
    low: variables.map((variable, i) => side(variable, best[i] ?? 0, -1)),
    high: variables.map((variable, i) => side(variable, best[i] ?? 0, 1)),
  };
}

function expectedBest(
  problem: Problem,
  state: State,
  { best, surrogate }: { best: SizingStep; surrogate: Surrogate },
): readonly number[] {
  const { variables } = problem;
  const box = boxAround(problem, sizesIn(problem, best), state.reach);
  const cost = (point: readonly number[]): number => {
    const written = pointOf(variables, sizesOf(variables, point));
    const barred = state.refused.some((other) => apart(other, written) < 0.25);
    return expectedCost(problem, surrogate, written) + (barred ? 10 : 0);
  };
  const found = searchBox({ ...box, cost, starts: [surrogate.base.point], seed: SEED + state.steps.length });
  return sizesOf(variables, found.point);
}

/** Enough to tell a slope from what the chain leaves unsaid, near enough to be the slope here. */
const LESSON = 0.6;

/** A step along the variable that the samples around the best tell least of, to the side that the surrogate likes better. */
function lessonAt(
  problem: Problem,
  state: State,
  { best, surrogate }: { best: SizingStep; surrogate: Surrogate },
): readonly number[] | undefined {
  const { variables } = problem;
  const here = surrogate.base.point;
  const near = [...state.samples.values()].filter(({ point }) => point !== here && apart(point, here) < 2);
  const told = variables.map((_, i) =>
    near.reduce((sum, { point }) => sum + ((point[i] ?? 0) - (here[i] ?? 0)) ** 2, 0),
  );
  const index = told.indexOf(Math.min(...told));
  const variable = variables[index];
  if (variable === undefined || (told[index] ?? 0) > 0.5 * LESSON ** 2) return undefined;
  const sizes = sizesIn(problem, best);
  const options = ([1, -1] as const).map((sign) => {
    const mm = sizes[index] ?? variable.startMm;
    const wanted =
      variable.sizesMm === undefined ? mm + sign * LESSON * variable.scaleMm : (neighbour(variable, mm, sign) ?? mm);
    const sizesMm = sizes.map((own, i) => (i === index ? allowedSize(variable, wanted) : own));
    return {
      sizesMm,
      moved: Math.abs((sizesMm[index] ?? mm) - mm),
      cost: expectedCost(problem, surrogate, pointOf(variables, sizesMm)),
    };
  });
  const useful = options.filter(({ moved }) => moved > 0.1 * variable.scaleMm).sort((a, b) => a.cost - b.cost);
  return useful[0]?.sizesMm;
}
