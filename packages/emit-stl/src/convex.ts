import type { Point } from '@sheetwave/geometry';

/** Corners counter-clockwise, no three in line. */
export type Convex = readonly Point[];

/** The smallest convex polygon around points (Andrew's monotone chain). Throws when they have no area. */
export function convexHull(points: readonly Point[]): Convex {
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y);
  const hull = [...chain(sorted), ...chain(sorted.reverse())];
  if (hull.length < 3) throw new Error('these points enclose no area');
  return hull;
}

function chain(sorted: readonly Point[]): readonly Point[] {
  const kept: Point[] = [];
  for (const point of sorted) {
    for (;;) {
      const [before, last] = kept.slice(-2);
      if (before === undefined || last === undefined || turn(before, last, point) > 1e-9) break;
      kept.pop();
    }
    kept.push(point);
  }
  return kept.slice(0, -1);
}

/** The hull of the points and of their mirror images in both axes: what fits it fits turned by half and from either side. */
export function symmetricHull(points: readonly Point[]): Convex {
  return convexHull(
    points.flatMap(({ x, y }) => [
      { x, y },
      { x: -x, y },
      { x, y: -y },
      { x: -x, y: -y },
    ]),
  );
}

/** Every side moved outward by `byMm` (inward below 0), corners kept sharp. Throws when nothing is left. */
export function moveSides(convex: Convex, byMm: number): Convex {
  const far = 2 * Math.max(...convex.flatMap((p) => [Math.abs(p.x), Math.abs(p.y)])) + 2 * Math.abs(byMm);
  const start: Convex = [at(-far, -far), at(far, -far), at(far, far), at(-far, far)];
  const moved = sidesOf(convex).reduce((rest, [from, to]) => clip(rest, outwardPlane(from, to, byMm)), start);
  return convexHull(moved);
}

/** Keeps what lies where `x·p.x + y·p.y ≤ reach`. */
interface HalfPlane {
  readonly x: number;
  readonly y: number;
  readonly reach: number;
}

/** The part of a convex polygon inside a half plane; may be empty. */
function clip(convex: Convex, plane: HalfPlane): Convex {
  return sidesOf(convex).flatMap(([from, to]) => {
    const [before, after] = [depth(from, plane), depth(to, plane)];
    const kept = before >= 0 ? [from] : [];
    if (before * after >= 0) return kept;
    const part = before / (before - after);
    return [...kept, at(from.x + part * (to.x - from.x), from.y + part * (to.y - from.y))];
  });
}

/** The part of a convex polygon inside an upright box; empty when they do not meet. */
export function clipToBox(convex: Convex, low: Point, high: Point): Convex {
  const planes: readonly HalfPlane[] = [
    { x: -1, y: 0, reach: -low.x },
    { x: 1, y: 0, reach: high.x },
    { x: 0, y: -1, reach: -low.y },
    { x: 0, y: 1, reach: high.y },
  ];
  return planes.reduce(clip, convex);
}

/** Greatest x and y of any corner: half the width and half the height of a symmetric polygon. */
export const halfExtents = (convex: Convex): Point => ({
  x: Math.max(...convex.map((p) => p.x)),
  y: Math.max(...convex.map((p) => p.y)),
});

function outwardPlane(from: Point, to: Point, byMm: number): HalfPlane {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const [x, y] = [(to.y - from.y) / length, (from.x - to.x) / length];
  return { x, y, reach: x * from.x + y * from.y + byMm };
}

function sidesOf(convex: Convex): readonly (readonly [Point, Point])[] {
  return convex.map((from, i) => [from, convex[(i + 1) % convex.length] ?? from]);
}

const depth = (p: Point, plane: HalfPlane): number => plane.reach - plane.x * p.x - plane.y * p.y;
const turn = (a: Point, b: Point, c: Point): number => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
const at = (x: number, y: number): Point => ({ x, y });
