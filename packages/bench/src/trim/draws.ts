/**
 * Points of a normal distribution with this mean and covariance: the mean itself, then a pair along each principal direction of a
 * Cholesky factor, each at the square root of n (the unscented set: Julier and Uhlmann, Proc. IEEE 92 (2004) 401; memory). Their
 * spread is that of the distribution, without chance.
 */
export function spreadPoints(
  mean: readonly number[],
  covariance: readonly (readonly number[])[],
): readonly (readonly number[])[] {
  const n = mean.length;
  const factor = choleskyColumns(covariance);
  const far = Math.sqrt(n);
  return [1, -1].flatMap((sign) =>
    factor.map((column) => mean.map((value, i) => value + sign * far * (column[i] ?? 0))),
  );
}

/** Columns of L with L Lᵀ = the matrix; what rounding makes negative counts as 0. */
function choleskyColumns(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const n = matrix.length;
  const lower = Array.from({ length: n }, () => new Float64Array(n));
  for (let j = 0; j < n; j++) {
    for (let i = j; i < n; i++) {
      let rest = matrix[i]?.[j] ?? 0;
      for (let k = 0; k < j; k++) rest -= (lower[i]?.[k] ?? 0) * (lower[j]?.[k] ?? 0);
      const pivot = lower[j]?.[j] ?? 0;
      const row = lower[i];
      if (row) row[j] = i === j ? Math.sqrt(Math.max(0, rest)) : pivot > 0 ? rest / pivot : 0;
    }
  }
  return Array.from({ length: n }, (_, j) => lower.map((row) => row[j] ?? 0));
}
