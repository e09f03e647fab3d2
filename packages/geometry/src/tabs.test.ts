import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { distanceToContour, perimeter, pieceLength } from './contour-measure.ts';
import { circleContour, rectangleContour, roundedRectangleContour } from './contours.ts';
import type { Contour } from './outline.ts';
import { contourPieces } from './pieces.ts';
import { needsTabs, type OpenPath, tabbedContour } from './tabs.ts';

const centre = { x: 3, y: -2 };
const shapes: readonly Contour[] = [
  circleContour(centre, 8),
  rectangleContour({ centre, widthMm: 24, heightMm: 27.3 }),
  roundedRectangleContour({ centre, widthMm: 30, heightMm: 12, radiusMm: 3 }),
];

/** Length of an open path, by closing it with a straight line and leaving that out. */
function lengthOf(path: OpenPath): number {
  const closed: Contour = {
    kind: 'path',
    start: path.start,
    segments: [...path.segments, { kind: 'line', to: path.start }],
  };
  return contourPieces(closed)
    .slice(0, -1)
    .reduce((sum, piece) => sum + pieceLength(piece), 0);
}

describe('a contour with gaps', () => {
  test('what is cut and the gaps make up its whole length; every path lies on it', () => {
    const input = fc.record({
      contour: fc.constantFrom(...shapes),
      count: fc.integer({ min: 1, max: 5 }),
      gapMm: fc.double({ min: 0.2, max: 1.4, noNaN: true }),
    });
    fc.assert(
      fc.property(input, ({ contour, count, gapMm }) => {
        const { paths, tabs } = tabbedContour(contour, { count, gapMm });
        expect([paths.length, tabs.length]).toEqual([count, count]);
        const cut = paths.reduce((sum, path) => sum + lengthOf(path), 0);
        expect(cut + count * gapMm).toBeCloseTo(perimeter(contour), 6);
        for (const path of paths)
          for (const p of [path.start, ...path.segments.map(({ to }) => to)])
            expect(distanceToContour(contour, p)).toBeLessThan(1e-6);
      }),
      { seed: 20260521, numRuns: 150 },
    );
  });

  test('two on a square lie opposite each other, in the middle of a side', () => {
    const { tabs } = tabbedContour(rectangleContour({ centre: { x: 0, y: 0 }, widthMm: 20, heightMm: 20 }), {
      count: 2,
      gapMm: 1,
    });
    expect(tabs).toEqual([
      { x: 0, y: -10 },
      { x: 0, y: 10 },
    ]);
  });

  test('never at a corner', () => {
    const rectangle = rectangleContour({ centre: { x: 0, y: 0 }, widthMm: 30, heightMm: 10 });
    for (const count of [1, 2, 3, 4, 5]) {
      for (const tab of tabbedContour(rectangle, { count, gapMm: 2 }).tabs)
        expect(
          Math.min(15 - Math.abs(tab.x), 5 - Math.abs(tab.y)) === 0 ||
            Math.hypot(15 - Math.abs(tab.x), 5 - Math.abs(tab.y)) >= 2,
        ).toBe(true);
    }
  });

  test('without room throws with the numbers', () => {
    const small = rectangleContour({ centre, widthMm: 3, heightMm: 3 });
    expect(() => tabbedContour(small, { count: 3, gapMm: 2 })).toThrow(/no side is twice as long as a gap of 2 mm/);
    expect(() => tabbedContour(small, { count: 8, gapMm: 1.4 })).toThrow(/no room for 8 gaps/);
  });
});

test('a part is small by its larger side', () => {
  const tabs = { count: 2, widthMm: 0.5, belowMm: 27.3 };
  expect(needsTabs(rectangleContour({ centre, widthMm: 10, heightMm: 27.2 }), tabs)).toBe(true);
  expect(needsTabs(rectangleContour({ centre, widthMm: 10, heightMm: 27.3 }), tabs)).toBe(false);
  expect(needsTabs(circleContour(centre, 5), { ...tabs, count: 0 })).toBe(false);
});
