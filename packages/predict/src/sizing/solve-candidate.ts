import { readDesign } from '@sheetwave/design';
import { chainReflection, fitChain, portReflection, type ResonatorChain, samplesAt } from '@sheetwave/rf';
import { coarseParameters } from './coarse.ts';
import { scoreOf } from './goal.ts';
import { designWith } from './makeable.ts';
import { type Problem, pointOf, type State } from './problem.ts';
import type { SizingStep } from './size-design.ts';
import { expectedReflection, parametersAt, type Sample, type Surrogate, surrogateAround } from './surrogate.ts';

/** The cheapest of at least one. */
export const bestOf = (steps: readonly SizingStep[]): SizingStep => {
  const [first, ...more] = steps;
  if (first === undefined) throw new Error('there is a first solution');
  return more.reduce((a, b) => (b.score.cost < a.score.cost ? b : a), first);
};

/** Solves a candidate, if it can be made, and keeps what the surrogate needs of it. */
export async function solveAt(
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

/** What the surrogate keeps of a solution. */
export function sampleOf(problem: Problem, state: State, taken: Taken): Sample {
  const { bandHz } = problem;
  const { step, point } = taken;
  const reflection = portReflection(step.response);
  const { freqHz, referenceOhm } = step.response;
  const chain = chainOf(problem, state, { ...taken, data: { freqHz, reflection, referenceOhm } });
  const found = chainReflection(chain, bandHz);
  const inBand = samplesAt(freqHz, reflection, bandHz);
  const rest = inBand.map(({ re, im }, k) => ({ re: re - (found[2 * k] ?? 0), im: im - (found[2 * k + 1] ?? 0) }));
  return { point, chain, reflection: inBand, rest, gainDbi: step.score.gainDbi };
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

/** The surrogate around the best solution. */
export function surrogateOf({ bandHz }: Problem, state: State, best: SizingStep): Surrogate {
  const base = state.samples.get(best);
  if (base === undefined) throw new Error('every solution has its sample');
  return surrogateAround(base, [...state.samples.values()], state.prior, bandHz);
}
