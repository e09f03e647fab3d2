import type { BoardPart, PlatePart } from '../assembly.ts';
import { bounds } from '../contour-measure.ts';
import type { Measurement } from '../measure.ts';
import type { Hole } from '../outline.ts';
import { bodyThicknessMm } from './thickness.ts';

/** Sizes over all, thickness, hole sizes with their counts, and every hole centre from the left and bottom edges. */
export function plateMeasures(part: PlatePart | BoardPart): Measurement[] {
  const box = bounds(part.outline.outer);
  const one = (what: string, valueMm: number): Measurement => ({ part: part.id, what, valueMm, count: 1 });
  const { outer } = part.outline;
  const size =
    outer.kind === 'circle'
      ? [one('diameter', 2 * outer.radiusMm)]
      : [one('width', box.maxX - box.minX), one('height', box.maxY - box.minY)];
  const places = part.outline.holes.flatMap((hole, i) => [
    one(`${hole.purpose} hole ${i + 1} from left edge`, hole.centre.x - box.minX),
    one(`${hole.purpose} hole ${i + 1} from bottom edge`, hole.centre.y - box.minY),
  ]);
  return [
    ...size,
    one('thickness', bodyThicknessMm(part)),
    ...cutoutMeasures(part),
    ...holeSizes(part.id, part.outline.holes),
    ...places,
  ];
}

/** Openings cut out of the part: diameter, or size over all, and how far from the left and bottom edges they begin. */
function cutoutMeasures(part: PlatePart | BoardPart): Measurement[] {
  const edges = bounds(part.outline.outer);
  return part.outline.cutouts.flatMap((cutout, i) => {
    const box = bounds(cutout);
    const name = part.outline.cutouts.length === 1 ? 'opening' : `opening ${i + 1}`;
    const one = (what: string, valueMm: number): Measurement => ({
      part: part.id,
      what: `${name} ${what}`,
      valueMm,
      count: 1,
    });
    const size =
      cutout.kind === 'circle'
        ? [one('diameter', 2 * cutout.radiusMm)]
        : [one('width', box.maxX - box.minX), one('height', box.maxY - box.minY)];
    return [...size, one('from left edge', box.minX - edges.minX), one('from bottom edge', box.minY - edges.minY)];
  });
}

function holeSizes(part: string, holes: readonly Hole[]): Measurement[] {
  const counts = new Map<string, Measurement>();
  for (const { purpose, diameterMm } of holes) {
    const key = `${purpose} ${diameterMm}`;
    const count = (counts.get(key)?.count ?? 0) + 1;
    counts.set(key, { part, what: `${purpose} hole diameter`, valueMm: diameterMm, count });
  }
  return [...counts.values()];
}
