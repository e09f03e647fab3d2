import type { Contour, Point, Segment } from './outline.ts';

/** A circle. Throws when a number is not finite or the radius is not above zero. Millimetres. */
export function circleContour(centre: Point, radiusMm: number): Contour {
  requireFinite('circle', { x: centre.x, y: centre.y, radiusMm });
  requireAboveZero('circle', { radiusMm });
  return { kind: 'circle', centre, radiusMm };
}

/** A rectangle with sides along x and y, counter-clockwise from its lower left corner. */
export function rectangleContour(size: {
  readonly centre: Point;
  readonly widthMm: number;
  readonly heightMm: number;
}): Contour {
  return roundedRectangleContour({ ...size, radiusMm: 0 });
}

/**
 * A rectangle with four equal round corners, counter-clockwise; radius 0 gives sharp corners.
 * A straight side of no length is left out, so a square with a radius of half its side is made of four arcs.
 * Throws when a number is not finite, a side is not above zero, or the radius is below zero or above half the shorter side.
 */
export function roundedRectangleContour(size: {
  readonly centre: Point;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly radiusMm: number;
}): Contour {
  const { centre, widthMm, heightMm, radiusMm } = size;
  requireFinite('rectangle', { x: centre.x, y: centre.y, widthMm, heightMm, radiusMm });
  requireAboveZero('rectangle', { widthMm, heightMm });
  if (radiusMm < 0 || radiusMm > Math.min(widthMm, heightMm) / 2)
    throw new Error(`rectangle ${widthMm} x ${heightMm} mm: a corner radius of ${radiusMm} mm does not fit`);
  const [left, right] = [centre.x - widthMm / 2, centre.x + widthMm / 2];
  const [low, high] = [centre.y - heightMm / 2, centre.y + heightMm / 2];
  if (radiusMm === 0) return polygonContour([at(left, low), at(right, low), at(right, high), at(left, high)]);
  const r = radiusMm;
  return pathThrough(at(left + r, low), [
    lineTo(right - r, low),
    arcTo(at(right, low + r), at(right - r, low + r)),
    lineTo(right, high - r),
    arcTo(at(right - r, high), at(right - r, high - r)),
    lineTo(left + r, high),
    arcTo(at(left, high - r), at(left + r, high - r)),
    lineTo(left, low + r),
    arcTo(at(left + r, low), at(left + r, low + r)),
  ]);
}

/**
 * A polygon through the given corners; the last side back to the first corner is added. The result runs counter-clockwise
 * from the first corner whichever way the corners were listed.
 * Throws for fewer than three corners, a coordinate that is not finite, two equal neighbours, or no area.
 */
export function polygonContour(points: readonly Point[]): Contour {
  const first = points[0];
  if (first === undefined || points.length < 3) throw new Error(`polygon: ${points.length} corners, at least 3 needed`);
  for (const p of points) requireFinite('polygon', { x: p.x, y: p.y });
  const area = shoelace(points);
  if (area === 0) throw new Error('polygon: its corners enclose no area');
  const corners = area > 0 ? points : [first, ...points.slice(1).reverse()];
  const segments = [...corners.slice(1), first].map((p): Segment => ({ kind: 'line', to: p }));
  requireNoRepeat(corners);
  return { kind: 'path', start: first, segments };
}

function shoelace(points: readonly Point[]): number {
  let twice = 0;
  let before = points.at(-1);
  for (const p of points) {
    if (before !== undefined) twice += before.x * p.y - before.y * p.x;
    before = p;
  }
  return twice / 2;
}

function requireNoRepeat(corners: readonly Point[]): void {
  let before = corners.at(-1);
  for (const p of corners) {
    if (before !== undefined && samePlace(before, p))
      throw new Error(`polygon: corner (${p.x}, ${p.y}) mm twice in a row`);
    before = p;
  }
}

/** Leaves out segments that lead nowhere by more than rounding, and ends the last one exactly on the start. */
function pathThrough(start: Point, segments: readonly Segment[]): Contour {
  const kept: Segment[] = [];
  let here = start;
  for (const segment of segments) {
    if (Math.hypot(segment.to.x - here.x, segment.to.y - here.y) <= 1e-9) continue;
    kept.push(segment);
    here = segment.to;
  }
  const last = kept.pop();
  return { kind: 'path', start, segments: last === undefined ? kept : [...kept, { ...last, to: start }] };
}

const at = (x: number, y: number): Point => ({ x, y });
const samePlace = (a: Point, b: Point): boolean => a.x === b.x && a.y === b.y;
const lineTo = (x: number, y: number): Segment => ({ kind: 'line', to: { x, y } });
const arcTo = (to: Point, centre: Point): Segment => ({ kind: 'arc', to, centre, sense: 'ccw' });

function requireFinite(what: string, numbers: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(numbers))
    if (!Number.isFinite(value)) throw new Error(`${what}: ${name} is ${value}, not a finite number`);
}

function requireAboveZero(what: string, numbers: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(numbers))
    if (!(value > 0)) throw new Error(`${what}: ${name} is ${value}, it must be above 0`);
}
