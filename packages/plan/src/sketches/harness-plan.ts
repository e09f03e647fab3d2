import { grow, plain, union, widthOf } from '@sheetwave/drawings';
import { type Assembly, type Bounds, boundsOfPoints } from '@sheetwave/geometry';
import type { PlanFigure } from '../document.ts';
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
  const end = runs.at(-1)?.to ?? assembly.coaxPoint;
  const pointers: readonly Pointer[] = [
    {
      words: 'coax comes through here',
      at: { x: box.maxX + 4, y: at(assembly.coaxPoint).y + 6 },
      to: at(assembly.coaxPoint),
    },
    { words: 'to a driven patch', at: { x: box.maxX + 4, y: at(end).y - 4 }, to: at(end) },
  ];
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
          cap: 'round',
        });
      for (const split of splits) pen.circle(at(split.at), 1, { fill: '#000000', stroke: 'none' });
      for (const element of assembly.elements.slice(0, 64))
        pen.circle(at(element.feedPoint), 0.9, { ...THIN, fill: '#ffffff' });
      pen.circle(at(assembly.coaxPoint), 1.8, LINE);
      drawPointers(pen, pointers);
    },
  };
}
