import {
  booleanOpD,
  ClipType,
  EndType,
  FillRule,
  inflatePathsD,
  JoinType,
  TriangulateResult,
  triangulateD,
} from 'clipper2-ts';
import type { Point } from './outline.ts';

// The only file that imports clipper2-ts. Its default precision is 10 µm, so every call asks for 1 nm, or 1 µm for prints.
const DECIMALS = 6;
const PRINT_DECIMALS = 3;

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

/**
 * An area of the bed of a printer: outer borders counter-clockwise, holes clockwise, none crossing, every corner on a grid
 * of 1 µm.
 */
export type Flat = readonly Polygon[];

/** Two areas put together, the second taken from the first, or what lies in both. */
export function combineFlats(how: 'union' | 'difference' | 'intersection', a: Flat, b: Flat): Flat {
  const type = { union: ClipType.Union, difference: ClipType.Difference, intersection: ClipType.Intersection }[how];
  return booleanOpD(type, copied(a), copied(b), FillRule.NonZero, PRINT_DECIMALS);
}

/** What a square-ended pen of this width covers. */
export function penFlat(lines: readonly (readonly Point[])[], widthMm: number): Flat {
  return inflatePathsD(copied(lines), widthMm / 2, JoinType.Miter, EndType.Square, 2, PRINT_DECIMALS);
}

/** The area grown by a distance, or shrunk below zero; outside corners stay sharp. */
export function growFlat(flat: Flat, byMm: number): Flat {
  return inflatePathsD(copied(flat), byMm, JoinType.Miter, EndType.Polygon, 2, PRINT_DECIMALS);
}

/**
 * Triangles that fill an area, each counter-clockwise, corners at its corners only. A corner in line with its neighbours may
 * be left out. Throws when borders cross.
 */
export function trianglesOf(flat: Flat): readonly (readonly [Point, Point, Point])[] {
  const { result, solution } = triangulateD(copied(flat), PRINT_DECIMALS, true);
  if (result !== TriangulateResult.success) throw new Error(`an area of ${flat.length} borders cannot be triangulated`);
  return solution.map(([a, b, c]) => {
    if (a === undefined || b === undefined || c === undefined) throw new Error('a triangle with two corners');
    return polygonArea([a, b, c]) > 0 ? [a, b, c] : [a, c, b];
  });
}
