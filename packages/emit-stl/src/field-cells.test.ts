import { expect, test } from 'vitest';
import { cellsOf } from './field-cells.ts';

const level = (height: number) => [{ from: -5, to: 5, fromHeight: height, toHeight: height }];

// Random designs found it: the arms of a jig ended 2 µm lower than they should, and the written mesh was refused.
test('heights that differ by rounding become the highest of them', () => {
  const slabs = [9.042, 9.044, 9.043].map((height, i) => ({ from: i, to: i + 1, face: level(height), openings: [] }));
  const heights = cellsOf(slabs)
    .rows.flat(2)
    .flatMap(({ start, end }) => [start, end]);
  expect(new Set(heights)).toEqual(new Set([9.044]));
});

test('heights that differ by more stay apart, and nothing is lifted off the bed', () => {
  const openings = [{ from: -1, to: 1 }];
  const slabs = [9, 9.01].map((height, i) => ({ from: i, to: i + 1, face: level(height), openings }));
  const [first, second] = cellsOf(slabs).rows;
  expect(first?.map(({ start }) => start)).toEqual([9, 0, 9]);
  expect(second?.map(({ start }) => start)).toEqual([9.01, 0, 9.01]);
});
