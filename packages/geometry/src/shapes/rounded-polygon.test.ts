import fc from 'fast-check';
import { expect, test } from 'vitest';
import { perimeter, signedArea } from '../contour-measure.ts';
import { selfCrossings } from '../crossings.ts';
import { roundedPolygon } from './rounded-polygon.ts';

test('a regular polygon with rounded corners has the area and edge of its inner polygon grown by the radius (Steiner)', () => {
  // Steiner's formula for a convex body grown by r: A + P r + π r² and P + 2 π r (computed; any text on integral geometry).
  fc.assert(
    fc.property(
      fc.integer({ min: 3, max: 12 }),
      fc.double({ min: 1, max: 50, noNaN: true }),
      fc.double({ min: 0.01, max: 0.9, noNaN: true }),
      (n, inRadius, part) => {
        const radiusMm = part * inRadius;
        const reach = inRadius / Math.cos(Math.PI / n);
        const corners = Array.from({ length: n }, (_, i) => ({
          x: reach * Math.cos((2 * Math.PI * i) / n),
          y: reach * Math.sin((2 * Math.PI * i) / n),
          radiusMm,
        }));
        const small = inRadius - radiusMm;
        const [area, edge] = [n * small ** 2 * Math.tan(Math.PI / n), 2 * n * small * Math.tan(Math.PI / n)];
        const contour = roundedPolygon(corners);
        expect(selfCrossings(contour)).toEqual([]);
        expect(signedArea(contour) / (area + edge * radiusMm + Math.PI * radiusMm ** 2)).toBeCloseTo(1, 9);
        expect(perimeter(contour) / (edge + 2 * Math.PI * radiusMm)).toBeCloseTo(1, 9);
      },
    ),
    { seed: 20260517, numRuns: 200 },
  );
});

test('listed the other way round it is the same, clockwise', () => {
  const corners = [
    [0, 0],
    [10, 0],
    [10, 6],
    [0, 6],
  ].map(([x = 0, y = 0]) => ({ x, y, radiusMm: 2 }));
  expect(signedArea(roundedPolygon(corners))).toBeCloseTo(60 - 4 * (4 - Math.PI), 12);
  expect(signedArea(roundedPolygon([...corners].reverse()))).toBeCloseTo(-(60 - 4 * (4 - Math.PI)), 12);
});

test('arcs that do not fit are refused', () => {
  const corners = [
    [0, 0],
    [10, 0],
    [10, 6],
    [0, 6],
  ].map(([x = 0, y = 0]) => ({ x, y, radiusMm: 3.1 }));
  expect(() => roundedPolygon(corners)).toThrow(/too short/);
});
