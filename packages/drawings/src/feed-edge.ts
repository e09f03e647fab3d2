import type { Bounds, Mark, Outline, Point } from '@sheetwave/geometry';
import { centreOf } from './box.ts';

export type Side = 'left' | 'right' | 'top' | 'bottom';

/**
 * Side of a part that the feed is nearest: from its `feed-edge` mark, else from an off-centre feed hole.
 * Undefined for a part that has neither.
 */
export function feedSide(
  part: { readonly outline: Outline; readonly marks: readonly Mark[] },
  edges: Bounds,
): Side | undefined {
  const mark = part.marks.find((one) => one.purpose === 'feed-edge');
  if (mark !== undefined) return nearestSide(middleOf(mark), edges);
  const feeds = part.outline.holes.filter((hole) => hole.purpose === 'feed');
  const [only] = feeds;
  if (feeds.length !== 1 || only === undefined) return undefined;
  const centre = centreOf(edges);
  const off = Math.hypot(only.centre.x - centre.x, only.centre.y - centre.y);
  return off > 0.01 ? directionSide(only.centre, centre) : undefined;
}

function middleOf(mark: Mark): Point {
  if (mark.kind === 'line') return { x: (mark.from.x + mark.to.x) / 2, y: (mark.from.y + mark.to.y) / 2 };
  return mark.kind === 'circle' ? mark.centre : mark.at;
}

function nearestSide(point: Point, edges: Bounds): Side {
  const distances: readonly (readonly [Side, number])[] = [
    ['bottom', Math.abs(point.y - edges.minY)],
    ['top', Math.abs(edges.maxY - point.y)],
    ['left', Math.abs(point.x - edges.minX)],
    ['right', Math.abs(edges.maxX - point.x)],
  ];
  return distances.reduce((best, one) => (one[1] < best[1] - 1e-9 ? one : best))[0];
}

function directionSide(point: Point, centre: Point): Side {
  const [dx, dy] = [point.x - centre.x, point.y - centre.y];
  if (Math.abs(dx) > Math.abs(dy)) return dx > 0 ? 'right' : 'left';
  return dy > 0 ? 'top' : 'bottom';
}
