import type { Goal } from './goal.ts';
import type { SizingOptions, SizingStep } from './size-design.ts';
import type { Sample } from './surrogate.ts';
import { allowedSize, type Variable } from './variables.ts';

/** What stays the same while sizing. */
export interface Problem {
  readonly options: SizingOptions;
  readonly variables: readonly Variable[];
  readonly goal: Goal;
  readonly centreHz: number;
  readonly bandHz: readonly number[];
  /** Most field solutions. */
  readonly budget: number;
}

/** What is learned while sizing. */
export interface State {
  readonly steps: SizingStep[];
  readonly samples: Map<SizingStep, Sample>;
  readonly refused: (readonly number[])[];
  /** Ends that turned out: beyond them the design cannot be made as it stands. By the index of the variable, mm. */
  readonly ends: Map<number, { lowMm: number; highMm: number; why: string }>;
  resonators: number;
  prior: readonly (readonly number[])[];
  reach: number;
  /** Solutions to learn slopes from before the next try, after an expectation that did not come true. */
  lessons: number;
}

/** Sizes in units of the search, from the start. */
export const pointOf = (variables: readonly Variable[], sizesMm: readonly number[]): readonly number[] =>
  variables.map(({ scaleMm, startMm }, i) => ((sizesMm[i] ?? startMm) - startMm) / scaleMm);

/** The sizes that may be written nearest to a point. */
export const sizesOf = (variables: readonly Variable[], point: readonly number[]): readonly number[] =>
  variables.map((variable, i) => allowedSize(variable, variable.startMm + (point[i] ?? 0) * variable.scaleMm));

/** Of a solution, in the order of the variables. */
export const sizesIn = ({ variables }: Problem, step: SizingStep): readonly number[] =>
  variables.map(({ path, startMm }) => step.sizesMm[path] ?? startMm);
