import { grow, plain, union, widthOf } from '@sheetwave/drawings';
import { type Assembly, type Bounds, boundsOfPoints, type Point } from '@sheetwave/geometry';
import type { PlanFigure } from '../document.ts';
import { harnessLevels, stretchWords } from '../steps/harness-levels.ts';
import { drawPointers, LINE, type Pointer, pointersBox, THIN } from './sketch.ts';

const WIDE_MM = 90;
/** More runs than this are a texture: the part next to the coax is shown. */
const MOST_LEVELS = 4;

/** The harness as it lies over the reflector, seen from in front: where the joints are. */
export function harnessSketch(assembly: Assembly): PlanFigure {
  const splits = assembly.harness.filter(({ level }) => level < MOST_LEVELS);
  const runs = splits.flatMap(({ arms }) => arms.flat());
  const reach = boundsOfPoints([assembly.coaxPoint, ...runs.flatMap(({ from, to }) => [from, to])]);
  const scale = Math.min(3, WIDE_MM / Math.max(widthOf(reach), reach.maxY - reach.minY, 1));
  const at = ({ x, y }: { readonly x: number; readonly y: number }) => ({ x: x * scale, y: y * scale });
  const box: Bounds = grow(
    boundsOfPoints([at({ x: reach.minX, y: reach.minY }), at({ x: reach.maxX, y: reach.maxY })]),
    8,
  );
  const [split] = splits;
  const pointers = spread(box.maxX + 4, [
    { words: 'coax comes through here', to: at(assembly.coaxPoint) },
    { words: 'to a driven patch', to: at(runs.at(-1)?.to ?? assembly.coaxPoint) },
    ...widerStretches(assembly).map(({ words, middle }) => ({ words, to: at(middle) })),
  ]);
  return {
    id: 'sketch-harness',
    caption: `The harness seen from the front. Joints are black dots; heavy stretches are the wider sections.`,
    alt: `The harness seen from the front: ${splits.length} junctions, the first ${split === undefined ? '' : `at ${plain(split.at.x)}, ${plain(split.at.y)} millimetres from the centre`}, with lines that end at the driven patches.`,
    box: grow(union(box, pointersBox(pointers)), 1),
    toScale: false,
    draw: (pen) => {
      for (const { from, to, role, sizeMm } of runs)
        pen.line(at(from), at(to), {
          ...LINE,
          width: Math.max(0.5, sizeMm * scale * (role === 'section' ? 1 : 0.7)),
          stroke: role === 'section' ? '#606060' : '#a0a0a0',
          cap: role === 'section' ? 'butt' : 'round',
        });
      for (const split of splits) pen.circle(at(split.at), 1, { fill: '#000000', stroke: 'none' });
      for (const element of assembly.elements.slice(0, 64))
        pen.circle(at(element.feedPoint), 0.9, { ...THIN, fill: '#ffffff' });
      pen.circle(at(assembly.coaxPoint), 1.8, LINE);
      drawPointers(pen, pointers);
    },
  };
}

/** The wider stretches of the first levels, with where they begin and end. */
function widerStretches(assembly: Assembly): readonly { readonly words: string; readonly middle: Point }[] {
  return harnessLevels(assembly)
    .filter(({ level }) => level < MOST_LEVELS)
    .flatMap((level) =>
      level.stretches.flatMap((one) => {
        if (one.role !== 'section') return [];
        const { from, to, sizeMm } = one.run;
        const words = `${plain(sizeMm)} mm wide ${stretchWords(level, one)}`;
        return [{ words, middle: { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 } }];
      }),
    );
}

const APART_MM = 5;

/** Words one under the other at the right, from the top in the order of what they point at. */
function spread(x: number, wishes: readonly { readonly words: string; readonly to: Point }[]): readonly Pointer[] {
  let below = Number.POSITIVE_INFINITY;
  return [...wishes]
    .sort((a, b) => b.to.y - a.to.y)
    .map(({ words, to }) => {
      below = Math.min(below - APART_MM, to.y);
      return { words, at: { x, y: below }, to };
    });
}
