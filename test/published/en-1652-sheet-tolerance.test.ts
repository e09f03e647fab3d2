/** Thickness tolerance of cold-rolled copper alloy sheet, ± mm, EN 1652, typed from a metal trade table (confirmed). */
import { sheetToleranceMm } from '@sheetwave/design';
import { describe, expect, it } from 'vitest';

const widths = [350, 700, 1000, 1250] as const;
const table: readonly (readonly [over: number, to: number, tolerances: readonly (number | undefined)[]])[] = [
  [0.1, 0.2, [0.018, undefined, undefined, undefined]],
  [0.2, 0.3, [0.022, 0.03, 0.04, undefined]],
  [0.3, 0.4, [0.025, 0.04, 0.05, 0.07]],
  [0.4, 0.5, [0.03, 0.05, 0.06, 0.08]],
  [0.5, 0.8, [0.04, 0.06, 0.07, 0.09]],
  [0.8, 1.2, [0.05, 0.07, 0.09, 0.1]],
  [1.2, 1.8, [0.06, 0.08, 0.1, 0.11]],
  [1.8, 2.5, [0.07, 0.09, 0.11, 0.13]],
  [2.5, 3.2, [0.08, 0.1, 0.13, 0.17]],
  [3.2, 4, [0.1, 0.12, 0.15, 0.2]],
  [4, 5, [0.12, 0.14, 0.17, 0.23]],
];

describe.each(table)('above %d up to %d mm', (over, to, tolerances) => {
  it('has the tolerance of each width, limits belonging to the smaller class', () => {
    expect(widths.map((width) => sheetToleranceMm(to, width))).toEqual(tolerances);
    expect(widths.map((width) => sheetToleranceMm((over + to) / 2, width - 1))).toEqual(tolerances);
  });
});

it.each([
  [0.1, 300],
  [5.01, 300],
  [1, 1251],
  [1, 0],
  [Number.NaN, 300],
])('says nothing outside the table: %d mm thick, %d mm wide', (thickness, width) => {
  expect(sheetToleranceMm(thickness, width)).toBeUndefined();
});
