import { FieldError, type FieldProblem } from '@sheetwave/field';
import type { TracedScene } from './scene/scene-parts.ts';

const LISTED = /^(sheets|solids|wires|ports)\[(\d+)\]/;

/** An error of the solver with the fields of the design in place of the parts of its scene; other errors as they are. */
export function inDesignTerms(error: unknown, traced: TracedScene): unknown {
  if (!(error instanceof FieldError)) return error;
  return new FieldError(error.problems.map((problem) => translated(problem, traced)));
}

function translated(problem: FieldProblem, { paths, scene }: TracedScene): FieldProblem {
  const found = LISTED.exec(problem.path);
  const list = found?.[1] as keyof TracedScene['paths'] | undefined;
  if (!found || !list) return problem;
  const index = Number(found[2]);
  const name = scene[list][index]?.name ?? '';
  return {
    ...problem,
    path: paths[list][index] ?? problem.path,
    value: problem.value === '' || problem.value === name ? name : `${name} (${problem.value})`,
  };
}
