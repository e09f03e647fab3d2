import { type Complex, complex, divide, magnitude, multiply, subtract } from '@sheetwave/rf';

/** m[row][column]. */
export type ComplexMatrix = readonly (readonly Complex[])[];

const ZERO = complex(0);
const at = (m: ComplexMatrix, row: number, column: number): Complex => m[row]?.[column] ?? ZERO;

/** The square matrix whose entry at (row, column) is `entry(row, column)`. */
export const matrixOf = (size: number, entry: (row: number, column: number) => Complex): ComplexMatrix =>
  Array.from({ length: size }, (_, row) => Array.from({ length: size }, (_, column) => entry(row, column)));

/**
 * X of A X = B for square matrices of one size, by elimination with row exchange; undefined when A is singular to working precision.
 */
export function solveMatrix(a: ComplexMatrix, b: ComplexMatrix): ComplexMatrix | undefined {
  const size = a.length;
  const left = a.map((row) => [...row]);
  const right = b.map((row) => [...row]);
  const largest = Math.max(...a.flat().map(magnitude));
  for (let k = 0; k < size; k++) {
    const pivot = pivotRow(left, k);
    if (!(magnitude(at(left, pivot, k)) > largest * 1e-14)) return undefined;
    exchange(left, k, pivot);
    exchange(right, k, pivot);
    for (let row = 0; row < size; row++) {
      if (row === k) continue;
      const factor = divide(at(left, row, k), at(left, k, k));
      takeAway(left, { row, from: k, factor });
      takeAway(right, { row, from: k, factor });
    }
  }
  return matrixOf(size, (row, column) => divide(at(right, row, column), at(left, row, row)));
}

function pivotRow(m: ComplexMatrix, k: number): number {
  let best = k;
  for (let row = k + 1; row < m.length; row++) {
    if (magnitude(at(m, row, k)) > magnitude(at(m, best, k))) best = row;
  }
  return best;
}

function exchange(m: Complex[][], a: number, b: number): void {
  const [rowA, rowB] = [m[a], m[b]];
  if (rowA === undefined || rowB === undefined) return;
  m[a] = rowB;
  m[b] = rowA;
}

function takeAway(m: Complex[][], { row, from, factor }: { row: number; from: number; factor: Complex }): void {
  m[row] = (m[row] ?? []).map((value, column) => subtract(value, multiply(factor, at(m, from, column))));
}

/** The matrix mirrored at its diagonal. */
const transpose = (m: ComplexMatrix): ComplexMatrix => matrixOf(m.length, (row, column) => at(m, column, row));

/** X of X A = B: the transposed of A' X' = B'. */
export function solveFromRight(a: ComplexMatrix, b: ComplexMatrix): ComplexMatrix | undefined {
  const solved = solveMatrix(transpose(a), transpose(b));
  return solved === undefined ? undefined : transpose(solved);
}
