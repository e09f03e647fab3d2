/** What is wrong with a scene or a run. `path` names the part of the scene: `sheets[1]`, `ports[0].resistance`. */
export interface FieldProblem {
  /** Stable word for programs. */
  readonly code: string;
  readonly path: string;
  /** The value found. */
  readonly value: string;
  /** What is the matter, or what would be allowed. */
  readonly allowed: string;
  /** What to do about it. */
  readonly remedy: string;
}

/** Thrown when there is no answer: before a step is run, or instead of a number that cannot be trusted. */
export class FieldError extends Error {
  readonly problems: readonly FieldProblem[];

  constructor(problems: readonly FieldProblem[]) {
    super(problems.map(describeProblem).join('\n'));
    this.name = 'FieldError';
    this.problems = problems;
  }
}

const describeProblem = ({ path, value, allowed, remedy }: FieldProblem) =>
  `${path}: ${value === '' ? '' : `${value}: `}${allowed}; ${remedy}.`;
