import { booleanOpD, ClipType, EndType, FillRule, inflatePathsD, JoinType } from 'clipper2-ts';
import type { Point } from './outline.ts';

// The only file that imports clipper2-ts. Its default precision is 10 µm, so every call asks for 1 nm.
const DECIMALS = 6;

type Polygon = readonly Point[];

/** Everything inside any of the polygons, whichever way they run: outer borders counter-clockwise, holes clockwise. */
export function unionPolygons(polygons: readonly Polygon[]): readonly Polygon[] {
  const alike = polygons.map((p) => (polygonArea(p) < 0 ? [...p].reverse() : p));
  return booleanOpD(ClipType.Union, copied(alike), [], FillRule.NonZero, DECIMALS);
}

/** Area in mm² that lies in one of two sets of polygons but not in both; where a set overlaps itself counts as outside. */
export function differingArea(a: readonly Polygon[], b: readonly Polygon[]): number {
  const xor = booleanOpD(ClipType.Xor, copied(a), copied(b), FillRule.EvenOdd, DECIMALS);
  return Math.abs(polygonsArea(xor));
}

/** The polygon grown (or, below zero, shrunk) by a distance; several pieces, or none, when shrinking parts it. */
export function inflatePolygon(
  polygon: Polygon,
  options: { readonly byMm: number; readonly corners: 'sharp' | 'round'; readonly mitreLimit: number },
): readonly Polygon[] {
  const join = options.corners === 'sharp' ? JoinType.Miter : JoinType.Round;
  return inflatePathsD(copied([polygon]), options.byMm, join, EndType.Polygon, options.mitreLimit, DECIMALS, 0.0005);
}

/** Signed area in mm²: positive counter-clockwise. */
function polygonArea(polygon: Polygon): number {
  let twice = 0;
  let before = polygon.at(-1);
  for (const p of polygon) {
    if (before !== undefined) twice += before.x * p.y - before.y * p.x;
    before = p;
  }
  return twice / 2;
}

/** Sum of signed areas: holes, which run clockwise, count off. */
export function polygonsArea(polygons: readonly Polygon[]): number {
  return polygons.reduce((total, polygon) => total + polygonArea(polygon), 0);
}

function copied(polygons: readonly Polygon[]): { x: number; y: number }[][] {
  return polygons.map((polygon) => polygon.map(({ x, y }) => ({ x, y })));
}
