import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Convex, clipToBox, convexHull, halfExtents, moveSides, symmetricHull } from './convex.ts';

const point = fc.record({ x: fc.integer({ min: -200, max: 200 }), y: fc.integer({ min: -200, max: 200 }) });
const box = (x: number, y: number): Convex => [
  { x: -x, y: -y },
  { x, y: -y },
  { x, y },
  { x: -x, y },
];

function area(polygon: Convex): number {
  return polygon.reduce((sum, p, i) => {
    const q = polygon[(i + 1) % polygon.length] ?? p;
    return sum + (p.x * q.y - p.y * q.x) / 2;
  }, 0);
}

describe('convex hull', () => {
  test('holds every point, turns left everywhere and uses only given points', () => {
    fc.assert(
      fc.property(fc.array(point, { minLength: 3, maxLength: 40 }), (points) => {
        const [a, ...rest] = points;
        fc.pre(
          a !== undefined &&
            rest.some((b) => rest.some((c) => (b.x - a.x) * (c.y - a.y) !== (b.y - a.y) * (c.x - a.x))),
        );
        const hull = convexHull(points);
        hull.forEach((from, i) => {
          const to = hull[(i + 1) % hull.length] ?? from;
          expect(points).toContainEqual(from);
          for (const p of points)
            expect((to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x)).toBeGreaterThanOrEqual(0);
        });
      }),
      { seed: 42 },
    );
  });

  test('points in one line have none', () => {
    expect(() =>
      convexHull([
        { x: 0, y: 0 },
        { x: 1, y: 1 },
        { x: 3, y: 3 },
      ]),
    ).toThrow(/no area/);
  });
});

test('a symmetric hull is its own mirror image', () => {
  const hull = symmetricHull([
    { x: 5, y: 1 },
    { x: -2, y: 7 },
    { x: 0, y: 0 },
  ]);
  expect(halfExtents(hull)).toEqual({ x: 5, y: 7 });
  for (const { x, y } of hull) {
    expect(hull.some((p) => p.x === -x && p.y === y)).toBe(true);
    expect(hull.some((p) => p.x === x && p.y === -y)).toBe(true);
  }
});

describe('moving the sides', () => {
  test('of a rectangle gives the rectangle', () => {
    const grown = moveSides(box(10, 6), 0.2);
    expect(halfExtents(grown).x).toBeCloseTo(10.2, 9);
    expect(halfExtents(grown).y).toBeCloseTo(6.2, 9);
    expect(area(grown)).toBeCloseTo(4 * 10.2 * 6.2, 9);
  });

  test('of a polygon around a circle gives the polygon around the other circle', () => {
    const around = (r: number): Convex =>
      Array.from({ length: 48 }, (_, i) => {
        const [angle, reach] = [(i * Math.PI) / 24, r / Math.cos(Math.PI / 48)];
        return { x: reach * Math.cos(angle), y: reach * Math.sin(angle) };
      });
    for (const by of [-1.5, 0.2, 3]) expect(area(moveSides(around(8), by))).toBeCloseTo(area(around(8 + by)), 6);
  });

  test('drops sides that vanish, and throws when nothing is left', () => {
    const clipped = symmetricHull([
      { x: 10, y: 5.9 },
      { x: 9.9, y: 6 },
    ]);
    expect(clipped).toHaveLength(8);
    expect(moveSides(clipped, -2)).toHaveLength(4);
    expect(() => moveSides(box(10, 6), -6.1)).toThrow();
  });
});

test('clipping to a box keeps what both have', () => {
  const kept = clipToBox(box(10, 6), { x: 5, y: -20 }, { x: 30, y: 2 });
  expect(area(kept)).toBeCloseTo(5 * 8, 9);
  expect(clipToBox(box(10, 6), { x: 11, y: -1 }, { x: 12, y: 1 })).toEqual([]);
});
