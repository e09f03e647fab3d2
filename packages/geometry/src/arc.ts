import type { Point } from './outline.ts';

const FULL_TURN = 2 * Math.PI;

/** Direction of travel along an arc: `ccw` turns left with y up. */
export type Sense = 'ccw' | 'cw';

/** An arc by its ends, as outlines carry it. */
export interface ArcEnds {
  readonly from: Point;
  readonly to: Point;
  readonly centre: Point;
  readonly sense: Sense;
}

/**
 * Signed angle an arc turns through, in radians: (0, 2π) for `ccw`, (-2π, 0) for `cw`.
 * Zero when both ends fall together: a whole circle is a contour of its own, never an arc.
 */
export function arcSweep(arc: ArcEnds): number {
  const { from, to, centre, sense } = arc;
  const [ax, ay, bx, by] = [from.x - centre.x, from.y - centre.y, to.x - centre.x, to.y - centre.y];
  if (Math.hypot(bx - ax, by - ay) <= 1e-9 * Math.hypot(ax, ay)) return 0;
  const left = Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  if (sense === 'ccw') return left > 0 ? left : left + FULL_TURN;
  return left < 0 ? left : left - FULL_TURN;
}

/** True when the direction `angleRad` from the centre meets the arc that starts at `startRad` and turns by `sweepRad`. */
export function arcCovers(startRad: number, sweepRad: number, angleRad: number): boolean {
  const along = sweepRad >= 0 ? angleRad - startRad : startRad - angleRad;
  const turned = along - FULL_TURN * Math.floor(along / FULL_TURN);
  return turned <= Math.abs(sweepRad);
}
