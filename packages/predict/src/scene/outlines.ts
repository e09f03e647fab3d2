import type { Outline, PlanePoint } from '@sheetwave/field';
import { type Contour, flattenContour } from '@sheetwave/geometry';
import { metres, planePoint } from './lengths.ts';

/** Greatest distance between an arc and the polygon that stands for it: far below what a resonance tells. */
const FLATTEN_MM = 0.005;

/** A placed contour as the solver wants it: a disc, or a polygon. */
export function sceneOutline(contour: Contour): Outline {
  if (contour.kind === 'circle')
    return { kind: 'disc', centre: planePoint(contour.centre), radius: metres(contour.radiusMm) };
  const points = flattenContour(contour, { toleranceMm: FLATTEN_MM }).map(planePoint);
  return { kind: 'polygon', points: withoutDoubles(points) };
}

function withoutDoubles(points: readonly PlanePoint[]): PlanePoint[] {
  const apart = (a: PlanePoint, b: PlanePoint | undefined) => !b || Math.hypot(a[0] - b[0], a[1] - b[1]) > 1e-8;
  return points.filter((point, n) => apart(point, n === 0 ? points.at(-1) : points[n - 1]));
}

/** A rectangle from corner to corner, mm. */
export function rectangle(low: readonly [number, number], high: readonly [number, number]): Outline {
  const [left, bottom, right, top] = [metres(low[0]), metres(low[1]), metres(high[0]), metres(high[1])];
  return {
    kind: 'polygon',
    points: [
      [left, bottom],
      [right, bottom],
      [right, top],
      [left, top],
    ],
  };
}

/** A square around a point, mm. */
export const square = (centre: { readonly x: number; readonly y: number }, sideMm: number): Outline =>
  rectangle([centre.x - sideMm / 2, centre.y - sideMm / 2], [centre.x + sideMm / 2, centre.y + sideMm / 2]);
