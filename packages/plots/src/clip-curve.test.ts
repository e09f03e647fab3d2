import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clipToBox, clipToCircle } from './clip-curve.ts';

const box = { minX: 0, minY: 0, maxX: 10, maxY: 10 };

describe('clipToBox', () => {
  test('cuts a curve where it crosses the edge, and joins what stays inside', () => {
    const curve = [
      { x: -5, y: 5 },
      { x: 5, y: 5 },
      { x: 5, y: 15 },
      { x: 8, y: 15 },
      { x: 8, y: 5 },
    ];
    expect(clipToBox(curve, box)).toEqual([
      [
        { x: 0, y: 5 },
        { x: 5, y: 5 },
        { x: 5, y: 10 },
      ],
      [
        { x: 8, y: 10 },
        { x: 8, y: 5 },
      ],
    ]);
  });

  test('a value that is missing leaves a gap', () => {
    const curve = [1, 2, Number.NaN, 4, 5].map((y, x) => ({ x, y }));
    expect(clipToBox(curve, box).map((line) => line.map(({ x }) => x))).toEqual([
      [0, 1],
      [3, 4],
    ]);
  });

  test.each([Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])('a curve runs off the edge towards %f', (y) => {
    const edge = y > 0 ? 10 : 0;
    const [line] = clipToBox(
      [
        { x: 4, y: 5 },
        { x: 5, y },
        { x: 6, y: 5 },
      ],
      box,
    );
    expect(line?.[0]).toEqual({ x: 4, y: 5 });
    expect(line?.at(-1)?.y).toBeCloseTo(edge, 9);
    expect(line?.at(-1)?.x).toBeGreaterThan(4);
    expect(line?.at(-1)?.x).toBeLessThan(5);
  });

  test('whatever the curve, nothing is outside and what was inside is there', () => {
    const point = fc.record({ x: fc.integer({ min: -20, max: 30 }), y: fc.integer({ min: -20, max: 30 }) });
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 12 }), (curve) => {
        const shown = clipToBox(curve, box).flat();
        for (const { x, y } of shown) expect(Math.max(-x, x - 10, -y, y - 10)).toBeLessThan(1e-9);
        const moves = curve.filter((at, i) =>
          [curve[i - 1], curve[i + 1]].some((b) => b && (b.x !== at.x || b.y !== at.y)),
        );
        for (const at of moves) if (at.x > 0 && at.x < 10 && at.y > 0 && at.y < 10) expect(shown).toContainEqual(at);
      }),
    );
  });
});

test('a circle cuts a line where Pythagoras says', () => {
  const circle = { centre: { x: 1, y: 0 }, radius: 5 };
  const [line] = clipToCircle(
    [
      { x: -10, y: 3 },
      { x: 10, y: 3 },
    ],
    circle,
  );
  // sqrt(5^2 - 3^2) = 4 on either side of the centre.
  expect(line?.map(({ x }) => x)).toEqual([expect.closeTo(-3, 9), expect.closeTo(5, 9)]);
  expect(
    clipToCircle(
      [
        { x: -10, y: 6 },
        { x: 10, y: 6 },
      ],
      circle,
    ),
  ).toEqual([]);
});
