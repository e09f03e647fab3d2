import { signedArea } from '@sheetwave/geometry';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { boxCorners, clipLine, clipPolygon } from './clip-polygon.ts';

const box = fc
  .tuple(
    fc.integer({ min: 0, max: 20 }),
    fc.integer({ min: 0, max: 20 }),
    fc.integer({ min: 1, max: 15 }),
    fc.integer({ min: 1, max: 15 }),
  )
  .map(([minX, minY, width, height]) => ({ minX, minY, maxX: minX + width, maxY: minY + height }));

const areaOf = (ring: readonly { x: number; y: number }[]): number => {
  const [start] = ring;
  if (start === undefined) return 0;
  return signedArea({ kind: 'path', start, segments: [...ring.slice(1), start].map((to) => ({ kind: 'line', to })) });
};

test('two boxes share the area that their sides say', () => {
  fc.assert(
    fc.property(box, box, (a, b) => {
      const wide = Math.max(0, Math.min(a.maxX, b.maxX) - Math.max(a.minX, b.minX));
      const high = Math.max(0, Math.min(a.maxY, b.maxY) - Math.max(a.minY, b.minY));
      expect(areaOf(clipPolygon(boxCorners(a), boxCorners(b)))).toBeCloseTo(wide * high, 6);
    }),
  );
});

test('a line is cut at the sides of the box, or misses it', () => {
  const window = { minX: 0, minY: 0, maxX: 10, maxY: 10 };
  expect(clipLine({ x: -10, y: 5 }, { x: 30, y: 5 }, window)).toEqual([0.25, 0.5]);
  expect(clipLine({ x: -10, y: 11 }, { x: 30, y: 11 }, window)).toBeUndefined();
  expect(clipLine({ x: 1, y: 1 }, { x: 2, y: 9 }, window)).toEqual([0, 1]);
});
