import { type Design, readDesign } from '@sheetwave/design';
import { coarseParameters } from './coarse.ts';
import { type Problem, type State, sizesIn } from './problem.ts';
import type { SizingStep } from './size-design.ts';
import { type Variable, withSizes } from './variables.ts';

/** Slopes of the closed forms, per unit of each variable, by small differences. */
export function priorSlopes(
  problem: Problem,
  { resonators }: State,
  start: SizingStep,
): readonly (readonly number[])[] {
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
