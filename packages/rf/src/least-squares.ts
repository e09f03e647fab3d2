/** Data of a fit. `residuals` must give a list of the same length each time; a value that is not finite counts as a bad place. */
export interface LeastSquares {
  readonly residuals: (parameters: readonly number[]) => readonly number[];
  readonly start: readonly number[];
  /** A sensible change of each parameter, in its own unit, above 0: the differences and the damping are reckoned in it. */
  readonly scales: readonly number[];
  /** Default 60. */
  readonly rounds?: number;
}

export interface Fitted {
  readonly parameters: readonly number[];
  /** Sum of squares at the end. */
  readonly sum: number;
  /** Inverse of JᵀJ at the end, in the units of the parameters; times the variance of a residual it is their covariance. */
  readonly covariance: readonly (readonly number[])[];
}

const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value * value, 0);

/**
 * Solves A x = b for a symmetric positive definite matrix by Cholesky's method (A = L Lᵀ); undefined when it is not positive definite
 * to working precision. Several right-hand sides at once: `columns[k]` is the k-th.
 */
export function solveSymmetric(
  matrix: readonly (readonly number[])[],
  columns: readonly (readonly number[])[],
): readonly (readonly number[])[] | undefined {
  const n = matrix.length;
  const lower = new Float64Array(n * n);
  const at = (i: number, j: number): number => lower[i * n + j] ?? 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i]?.[j] ?? 0;
      for (let k = 0; k < j; k++) rest -= at(i, k) * at(j, k);
      if (i !== j) lower[i * n + j] = rest / at(j, j);
      else if (rest > 1e-14 * Math.abs(matrix[i]?.[i] ?? 0)) lower[i * n + i] = Math.sqrt(rest);
      else return undefined;
    }
  }
  return columns.map((column) => {
    const x = Float64Array.from(column);
    for (let i = 0; i < n; i++) {
      let rest = x[i] ?? 0;
      for (let k = 0; k < i; k++) rest -= at(i, k) * (x[k] ?? 0);
      x[i] = rest / at(i, i);
    }
    for (let i = n - 1; i >= 0; i--) {
      let rest = x[i] ?? 0;
      for (let k = i + 1; k < n; k++) rest -= at(k, i) * (x[k] ?? 0);
      x[i] = rest / at(i, i);
    }
    return [...x];
  });
}

/** Forward differences, one column for each parameter, divided by nothing: per scale of the parameter. */
function columnsAt(problem: LeastSquares, parameters: readonly number[], now: readonly number[]): readonly number[][] {
  const share = 1e-4;
  return problem.scales.map((scale, k) => {
    const moved = parameters.map((value, i) => (i === k ? value + share * scale : value));
    return problem.residuals(moved).map((value, i) => (value - (now[i] ?? 0)) / share);
  });
}

const dot = (a: readonly number[], b: readonly number[]): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
};

/**
 * Least squares of a smooth function by damped Gauss-Newton steps (Levenberg, Q. Appl. Math. 2 (1944) 164; Marquardt, J. SIAM 11
 * (1963) 431). Ends when a step gains less than 1e-10 of the sum. The answer is never worse than the start.
 * Throws RangeError when the residuals of the start are not finite.
 */
export function fitLeastSquares(problem: LeastSquares): Fitted {
  const { scales, rounds = 60 } = problem;
  let parameters = problem.start;
  let now = problem.residuals(parameters);
  let sum = sumOf(now);
  if (!Number.isFinite(sum)) throw new RangeError('The residuals of the start must be finite.');
  let damping = 1e-3;
  let columns = columnsAt(problem, parameters, now);
  for (let round = 0; round < rounds; round++) {
    const normal = columns.map((a) => columns.map((b) => dot(a, b)));
    const slope = columns.map((a) => -dot(a, now));
    const largest = Math.max(...normal.map((row, i) => row[i] ?? 0), Number.MIN_VALUE);
    const damped = normal.map((row, i) =>
      row.map((value, j) => (i === j ? value + damping * Math.max(value, 1e-9 * largest) : value)),
    );
    const [step] = solveSymmetric(damped, [slope]) ?? [];
    const next = step && parameters.map((value, i) => value + (step[i] ?? 0) * (scales[i] ?? 1));
    const residuals = next && problem.residuals(next);
    const nextSum = residuals ? sumOf(residuals) : Number.NaN;
    if (next && residuals && nextSum < sum) {
      const gain = (sum - nextSum) / sum;
      parameters = next;
      now = residuals;
      sum = nextSum;
      damping = Math.max(damping / 5, 1e-12);
      columns = columnsAt(problem, parameters, now);
      if (gain < 1e-10) break;
    } else {
      damping *= 6;
      if (damping > 1e12) break;
    }
  }
  return { parameters, sum, covariance: covarianceOf(columns, scales) };
}

function covarianceOf(
  columns: readonly (readonly number[])[],
  scales: readonly number[],
): readonly (readonly number[])[] {
  const normal = columns.map((a) => columns.map((b) => dot(a, b)));
  const largest = Math.max(...normal.map((row, i) => row[i] ?? 0), Number.MIN_VALUE);
  const firm = normal.map((row, i) => row.map((value, j) => (i === j ? value + 1e-12 * largest : value)));
  const unit = firm.map((_, k) => firm.map((__, i) => (i === k ? 1 : 0)));
  const inverse = solveSymmetric(firm, unit) ?? [];
  return inverse.map((column, k) => column.map((value, i) => value * (scales[i] ?? 1) * (scales[k] ?? 1)));
}
