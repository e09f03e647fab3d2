import { designWith } from './makeable.ts';
import { apart, expectedCost } from './next-candidate.ts';
import { type Problem, pointOf, type State, sizesIn } from './problem.ts';
import type { SizingStep } from './size-design.ts';
import { bestOf, solveAt, surrogateOf } from './solve-candidate.ts';
import { allowedSize, roundedVariable, type Variable } from './variables.ts';

/** Choices of rounded sizes that are solved, when the first spoils the goal and the budget has room. */
const ROUNDED_TRIES = 3;

/** Rounded sizes beside the best: those that the surrogate likes best, as the field solver sees them; others when they spoil the goal. */
export async function roundOff(problem: Problem, state: State, best: SizingStep): Promise<SizingStep | undefined> {
  const { options, budget } = problem;
  const wanted = Math.max(best.score.cost, 0);
  const rounded: SizingStep[] = [];
  for (let tries = 0; tries < ROUNDED_TRIES; tries++) {
    const step = await roundedOnce(problem, state, { best, rounded });
    if (step !== undefined) rounded.push(step);
    const isSpent = state.steps.length >= budget;
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
  const surrogate = surrogateOf(problem, state, best);
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
