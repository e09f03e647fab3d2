import { describe, expect, it } from 'vitest';
import { fitLeastSquares, solveSymmetric } from './least-squares.ts';

describe('solveSymmetric', () => {
  // 4x + 2y = 2, 2x + 3y = 5: x = -1/2, y = 2, by hand; the inverse is [3, -2; -2, 4]/8.
  it('solves and inverts', () => {
    const matrix = [
      [4, 2],
      [2, 3],
    ];
    const [x, first, second] =
      solveSymmetric(matrix, [
        [2, 5],
        [1, 0],
        [0, 1],
      ]) ?? [];
    expect(x?.map((value) => Math.round(value * 1e12) / 1e12)).toEqual([-0.5, 2]);
    expect([...(first ?? []), ...(second ?? [])].map((value) => Math.round(value * 8 * 1e9) / 1e9)).toEqual([
      3, -2, -2, 4,
    ]);
  });

  it('says when a matrix is not positive definite', () => {
    expect(
      solveSymmetric(
        [
          [1, 2],
          [2, 1],
        ],
        [[1, 1]],
      ),
    ).toBeUndefined();
  });
});

describe('fitLeastSquares', () => {
  // The valley of Rosenbrock, Computer J. 3 (1960) 175, as squares 10(y - x²) and 1 - x: the minimum is 0 at (1, 1), from (-1.2, 1) (confirmed).
  it('finds the end of a bent valley', () => {
    const fit = fitLeastSquares({
      start: [-1.2, 1],
      scales: [1, 1],
      residuals: ([x = 0, y = 0]) => [10 * (y - x * x), 1 - x],
    });
    expect(fit.parameters[0]).toBeCloseTo(1, 6);
    expect(fit.parameters[1]).toBeCloseTo(1, 6);
    expect(fit.sum).toBeLessThan(1e-12);
  });

  // Straight line through (0,1), (1,3), (2,4): slope 3/2, offset 7/6, rest 1/6; (XᵀX)⁻¹ of the slope is 1/2, of the offset 5/6 (by hand).
  it('gives the line and the covariance of a straight fit', () => {
    const points = [
      [0, 1],
      [1, 3],
      [2, 4],
    ] as const;
    const fit = fitLeastSquares({
      start: [0, 0],
      scales: [2, 0.5],
      residuals: ([offset = 0, slope = 0]) => points.map(([x, y]) => y - offset - slope * x),
    });
    expect(fit.parameters[0]).toBeCloseTo(7 / 6, 8);
    expect(fit.parameters[1]).toBeCloseTo(3 / 2, 8);
    expect(fit.sum).toBeCloseTo(1 / 6, 10);
    expect(fit.covariance[0]?.[0]).toBeCloseTo(5 / 6, 6);
    expect(fit.covariance[1]?.[1]).toBeCloseTo(1 / 2, 6);
  });

  it('is never worse than its start, and refuses a start that is no number', () => {
    const flat = fitLeastSquares({ start: [3], scales: [1], residuals: () => [1] });
    expect(flat.parameters).toEqual([3]);
    expect(() => fitLeastSquares({ start: [3], scales: [1], residuals: () => [Number.NaN] })).toThrow(RangeError);
  });
});
