import type { Outline, PlanePoint, Sheet } from './scene.ts';

/** Smallest rectangle around an outline, m. */
export interface PlaneBounds {
  readonly low: PlanePoint;
  readonly high: PlanePoint;
}

export function outlineBounds(outline: Outline): PlaneBounds {
  if (outline.kind === 'disc') {
    const { centre, radius } = outline;
    return { low: [centre[0] - radius, centre[1] - radius], high: [centre[0] + radius, centre[1] + radius] };
  }
  const us = outline.points.map((point) => point[0]);
  const vs = outline.points.map((point) => point[1]);
  return { low: [Math.min(...us), Math.min(...vs)], high: [Math.max(...us), Math.max(...vs)] };
}

/** m^2, positive. */
export function outlineArea(outline: Outline): number {
  if (outline.kind === 'disc') return Math.PI * outline.radius ** 2;
  return Math.abs(edgesOf(outline.points).reduce((sum, [a, b]) => sum + (a[0] * b[1] - b[0] * a[1]) / 2, 0));
}

export const edgesOf = (points: readonly PlanePoint[]): (readonly [PlanePoint, PlanePoint])[] =>
  points.map((point, index) => [point, points[(index + 1) % points.length] as PlanePoint] as const);

/** Distance from a point to the curve, m: negative inside. */
export function signedDistance(outline: Outline, u: number, v: number): number {
  if (outline.kind === 'disc') return Math.hypot(u - outline.centre[0], v - outline.centre[1]) - outline.radius;
  const { points } = outline;
  let nearest = Number.POSITIVE_INFINITY;
  let inside = false;
  for (let n = 0, m = points.length - 1; n < points.length; m = n++) {
    const [au, av] = points[m] as PlanePoint;
    const [bu, bv] = points[n] as PlanePoint;
    nearest = Math.min(nearest, squaredDistance(u - au, v - av, bu - au, bv - av));
    if (av > v !== bv > v && u < au + ((v - av) / (bv - av)) * (bu - au)) inside = !inside;
  }
  return (inside ? -1 : 1) * Math.sqrt(nearest);
}

/** Squared distance from the point p to the segment from 0 to e. */
function squaredDistance(pu: number, pv: number, eu: number, ev: number): number {
  const length = eu * eu + ev * ev;
  const along = length === 0 ? 0 : Math.max(0, Math.min(1, (pu * eu + pv * ev) / length));
  return (pu - along * eu) ** 2 + (pv - along * ev) ** 2;
}

/** Distance to the metal of a sheet in its plane, m: negative inside, holes counted as outside. */
export function sheetDistance(sheet: Sheet, u: number, v: number): number {
  const solid = signedDistance(sheet.outline, u, v);
  return (sheet.holes ?? []).reduce((distance, hole) => Math.max(distance, -signedDistance(hole, u, v)), solid);
}
