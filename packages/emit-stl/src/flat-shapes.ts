import { combineFlats, type Flat, type Point } from '@sheetwave/geometry';
import { onGrid } from './profile.ts';
import { CIRCLE_CORNERS } from './solid.ts';

/** An upright rectangle between two corners. */
export function box(low: Point, high: Point): Flat {
  return polygon([low, { x: high.x, y: low.y }, high, { x: low.x, y: high.y }]);
}

/** Corners counter-clockwise. */
export function polygon(corners: readonly Point[]): Flat {
  return [corners.map(({ x, y }) => ({ x: onGrid(x), y: onGrid(y) }))];
}

/** A hole whose flats touch the circle asked for, so that its narrowest place is still `diameterMm`. */
export function bore(centre: Point, diameterMm: number): Flat {
  return round(centre, diameterMm / 2 / Math.cos(Math.PI / CIRCLE_CORNERS));
}

/** A post whose corners lie on the circle asked for. */
export const post = (centre: Point, diameterMm: number): Flat => round(centre, diameterMm / 2);

function round(centre: Point, radius: number): Flat {
  const corner = (i: number): Point => {
    const angle = (2 * Math.PI * i) / CIRCLE_CORNERS;
    return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
  };
  return polygon(Array.from({ length: CIRCLE_CORNERS }, (_, i) => corner(i)));
}

export const joined = (flats: readonly Flat[]): Flat => combineFlats('union', flats.flat(), []);
export const without = (flat: Flat, less: readonly Flat[]): Flat =>
  less.length === 0 ? flat : combineFlats('difference', flat, joined(less));

/** Moved by whole micrometres, so that what is alike stays alike. */
export function movedFlat(flat: Flat, by: Point): Flat {
  const [dx, dy] = [onGrid(by.x), onGrid(by.y)];
  return flat.map((loop) => loop.map(({ x, y }) => ({ x: onGrid(x + dx), y: onGrid(y + dy) })));
}

/** Seen from behind: x changes its sign, borders keep their sense. */
export function mirroredFlat(flat: Flat): Flat {
  return flat.map((loop) => loop.map(({ x, y }) => ({ x: 0 - x, y })).reverse());
}

export interface Extent {
  readonly low: Point;
  readonly high: Point;
}

export function extentOf(flat: Flat): Extent {
  const all = flat.flat();
  const [xs, ys] = [all.map((p) => p.x), all.map((p) => p.y)];
  return {
    low: { x: Math.min(...xs), y: Math.min(...ys) },
    high: { x: Math.max(...xs), y: Math.max(...ys) },
  };
}
