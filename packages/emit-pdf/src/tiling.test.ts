import fc from 'fast-check';
import { expect, test } from 'vitest';
import { tilingOf } from './tiling.ts';

const room = { widthMm: 194, heightMm: 253, overlapMm: 10 };
const box = (widthMm: number, heightMm: number) => ({ minX: -3, minY: 7, maxX: widthMm - 3, maxY: heightMm + 7 });

// By hand: cells of 184 by 243 mm; a page shows 10 mm more than its cell.
test.each([
  [194, 253, 1, 1],
  [194.1, 253, 2, 1],
  [378, 253, 2, 1],
  [378.1, 500, 3, 3],
  [10, 496, 1, 2],
])('%d by %d mm take %d by %d pages', (width, height, columns, rows) => {
  const tiling = tilingOf(box(width, height), room);
  expect([tiling.columns, tiling.rows, tiling.tiles.length]).toEqual([columns, rows, columns * rows]);
});

test('corners of one name are one point, and pages that share a cell edge share the names at both its ends', () => {
  const { tiles } = tilingOf(box(378, 496), room);
  expect(tiles.map(({ column, row }) => `${column} ${row}`)).toEqual(['1 1', '2 1', '1 2', '2 2']);
  expect(tiles.map(({ corners }) => corners.map(({ name }) => name).join(' '))).toEqual([
    '1-1 2-1 1-2 2-2',
    '2-1 3-1 2-2 3-2',
    '1-2 2-2 1-3 2-3',
    '2-2 3-2 2-3 3-3',
  ]);
});

test('every point of a drawing is on a page, and every corner at least half an overlap inside the pages that name it', () => {
  const sizes = fc.record({
    width: fc.double({ min: 1, max: 1500, noNaN: true }),
    height: fc.double({ min: 1, max: 1500, noNaN: true }),
    overlapMm: fc.double({ min: 6, max: 40, noNaN: true }),
    at: fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })),
  });
  fc.assert(
    fc.property(sizes, ({ width, height, overlapMm, at }) => {
      const drawing = box(width, height);
      const { tiles, columns, rows } = tilingOf(drawing, { ...room, overlapMm });
      const [x, y] = [drawing.minX + at[0] * width, drawing.minY + at[1] * height];
      const slack = 1e-6;
      expect(
        tiles.some(
          ({ window }) =>
            window.minX <= x + slack &&
            x - slack <= window.maxX &&
            window.minY <= y + slack &&
            y - slack <= window.maxY,
        ),
      ).toBe(true);
      const places = new Map<string, string>();
      for (const { corners, window } of tiles) {
        expect(window.maxX - window.minX).toBeCloseTo(room.widthMm, 6);
        expect(window.maxY - window.minY).toBeCloseTo(room.heightMm, 6);
        for (const { name, at: corner } of corners) {
          const place = `${corner.x} ${corner.y}`;
          expect(places.get(name) ?? place).toBe(place);
          places.set(name, place);
          const inside = Math.min(
            corner.x - window.minX,
            window.maxX - corner.x,
            corner.y - window.minY,
            window.maxY - corner.y,
          );
          expect(inside).toBeCloseTo(overlapMm / 2, 6);
        }
      }
      expect(places.size).toBe((columns + 1) * (rows + 1));
    }),
    { numRuns: 200 },
  );
});

test('an overlap as large as the page is refused', () => {
  expect(() => tilingOf(box(10, 10), { widthMm: 20, heightMm: 200, overlapMm: 20 })).toThrow('cannot overlap');
});
