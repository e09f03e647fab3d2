/** Widest strip of each column, mm. */
const WIDTHS_MM = [350, 700, 1000, 1250] as const;

/** EN 1652:1997 thickness tolerance, ± mm: thickness above and up to and including, then the four widths. */
const ROWS: readonly (readonly [over: number, to: number, tolerances: readonly (number | undefined)[]])[] = [
  [0.1, 0.2, [0.018]],
  [0.2, 0.3, [0.022, 0.03, 0.04]],
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

/**
 * Thickness tolerance (± mm) of cold-rolled copper and copper-alloy sheet by EN 1652, for a sheet rolled `widthMm` wide.
 * Undefined outside the table (thickness above 0.1 up to 5 mm, width up to 1250 mm, thin sheet less).
 */
export function sheetToleranceMm(thicknessMm: number, widthMm: number): number | undefined {
  const row = ROWS.find(([over, to]) => thicknessMm > over && thicknessMm <= to);
  const column = widthMm > 0 ? WIDTHS_MM.findIndex((widest) => widthMm <= widest) : -1;
  return column < 0 ? undefined : row?.[2][column];
}
