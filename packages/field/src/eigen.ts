import { add, type Complex, complex, divide, magnitude, multiply, scale, squareRoot, subtract } from './complex.ts';

/** Eigenvalues (falling) and eigenvectors (columns) of a symmetric matrix, by the cyclic method of Jacobi (1846). */
export function symmetricEigen(matrix: readonly Float64Array[]): { values: number[]; vectors: Float64Array[] } {
  const n = matrix.length;
  const a = matrix.map((row) => row.slice());
  const v = a.map((_, i) => Float64Array.from({ length: n }, (_, j) => (i === j ? 1 : 0)));
  for (let sweep = 0; sweep < 30 && offDiagonal(a) > 1e-30 * diagonal(a); sweep++) {
    for (let p = 0; p < n - 1; p++) for (let q = p + 1; q < n; q++) rotate(a, v, p, q);
  }
  const order = a.map((row, i) => [row[i] as number, i] as const).sort((x, y) => y[0] - x[0]);
  return {
    values: order.map(([value]) => value),
    vectors: v.map((row) => Float64Array.from(order, ([, column]) => row[column] as number)),
  };
}

const sum = (values: Iterable<number>) => [...values].reduce((total, value) => total + value, 0);
const offDiagonal = (a: readonly Float64Array[]) =>
  sum(a.map((row, i) => row.reduce((total, value, j) => total + (i === j ? 0 : value * value), 0)));
const diagonal = (a: readonly Float64Array[]) => sum(a.map((row, i) => (row[i] as number) ** 2));

function rotate(a: readonly Float64Array[], v: readonly Float64Array[], p: number, q: number): void {
  const [rowP, rowQ] = [a[p] as Float64Array, a[q] as Float64Array];
  const apq = rowP[q] as number;
  if (Math.abs(apq) < 1e-300) return;
  const theta = ((rowQ[q] as number) - (rowP[p] as number)) / (2 * apq);
  const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
  const c = 1 / Math.sqrt(t * t + 1);
  const s = t * c;
  for (const row of a) turn(row, p, q, c, s);
  for (let j = 0; j < a.length; j++) {
    const [x, y] = [rowP[j] as number, rowQ[j] as number];
    rowP[j] = c * x - s * y;
    rowQ[j] = s * x + c * y;
  }
  for (const row of v) turn(row, p, q, c, s);
}

function turn(row: Float64Array, p: number, q: number, c: number, s: number): void {
  const [x, y] = [row[p] as number, row[q] as number];
  row[p] = c * x - s * y;
  row[q] = s * x + c * y;
}

export type ComplexMatrix = Complex[][];

/** Eigenvalues of a small square matrix by the shifted QR method on its Hessenberg form (Golub and Van Loan, chapter 7). */
export function eigenvalues(matrix: ComplexMatrix): Complex[] {
  const a = hessenberg(matrix);
  const found: Complex[] = [];
  let n = a.length;
  let tries = 0;
  while (n > 0) {
    const size = (i: number, j: number) => magnitude(entry(a, i, j));
    const small = n === 1 || size(n - 1, n - 2) < 1e-14 * (size(n - 1, n - 1) + size(n - 2, n - 2));
    if (small || tries > 200) {
      found.push(entry(a, n - 1, n - 1));
      n--;
      tries = 0;
    } else {
      qrStep(a, n, tries % 11 === 10 ? complex(size(n - 1, n - 2)) : wilkinsonShift(a, n));
      tries++;
    }
  }
  return found;
}

const entry = (a: ComplexMatrix, i: number, j: number) => (a[i] as Complex[])[j] as Complex;

/** Gauss transforms with pivoting. */
function hessenberg(matrix: ComplexMatrix): ComplexMatrix {
  const a = matrix.map((row) => [...row]);
  const n = a.length;
  for (let m = 1; m < n - 1; m++) {
    let pivot = m;
    for (let i = m + 1; i < n; i++) if (magnitude(entry(a, i, m - 1)) > magnitude(entry(a, pivot, m - 1))) pivot = i;
    if (magnitude(entry(a, pivot, m - 1)) === 0) continue;
    [a[m], a[pivot]] = [a[pivot] as Complex[], a[m] as Complex[]];
    for (const row of a) [row[m], row[pivot]] = [row[pivot] as Complex, row[m] as Complex];
    for (let i = m + 1; i < n; i++) {
      const factor = divide(entry(a, i, m - 1), entry(a, m, m - 1));
      for (let j = 0; j < n; j++) (a[i] as Complex[])[j] = subtract(entry(a, i, j), multiply(factor, entry(a, m, j)));
      for (const row of a) row[m] = add(row[m] as Complex, multiply(factor, row[i] as Complex));
    }
  }
  return a;
}

/** The eigenvalue of the last 2 x 2 block that lies nearer to its last entry. */
function wilkinsonShift(a: ComplexMatrix, n: number): Complex {
  const [p, q, r, s] = [entry(a, n - 2, n - 2), entry(a, n - 2, n - 1), entry(a, n - 1, n - 2), entry(a, n - 1, n - 1)];
  const half = scale(subtract(p, s), 0.5);
  const root = squareRoot(add(multiply(half, half), multiply(q, r)));
  const one = add(add(half, s), root);
  const two = subtract(add(half, s), root);
  return magnitude(subtract(one, s)) < magnitude(subtract(two, s)) ? one : two;
}

/** One step A - mu = QR, A' = RQ + mu, with rotations of Givens. */
function qrStep(a: ComplexMatrix, n: number, shift: Complex): void {
  for (let i = 0; i < n; i++) (a[i] as Complex[])[i] = subtract(entry(a, i, i), shift);
  const rotations: { c: Complex; s: Complex }[] = [];
  for (let k = 0; k < n - 1; k++) {
    const [x, y] = [entry(a, k, k), entry(a, k + 1, k)];
    const norm = Math.hypot(x.re, x.im, y.re, y.im) || 1;
    const c = scale(x, 1 / norm);
    const s = scale(y, 1 / norm);
    rotations.push({ c, s });
    for (let j = k; j < n; j++) {
      const [u, v] = [entry(a, k, j), entry(a, k + 1, j)];
      (a[k] as Complex[])[j] = add(multiply(conj(c), u), multiply(conj(s), v));
      (a[k + 1] as Complex[])[j] = subtract(multiply(c, v), multiply(s, u));
    }
  }
  rotations.forEach(({ c, s }, k) => {
    for (let i = 0; i <= Math.min(k + 1, n - 1); i++) {
      const [u, v] = [entry(a, i, k), entry(a, i, k + 1)];
      (a[i] as Complex[])[k] = add(multiply(u, c), multiply(v, s));
      (a[i] as Complex[])[k + 1] = subtract(multiply(v, conj(c)), multiply(u, conj(s)));
    }
  });
  for (let i = 0; i < n; i++) (a[i] as Complex[])[i] = add(entry(a, i, i), shift);
}

const conj = (a: Complex) => complex(a.re, -a.im);

/** Solves A x = b by elimination with pivoting; A and b are not kept. Throws when A is singular. */
export function solveLinear(matrix: ComplexMatrix, right: Complex[]): Complex[] {
  const n = matrix.length;
  const a = matrix.map((row, i) => [...row, right[i] as Complex]);
  for (let m = 0; m < n; m++) {
    let pivot = m;
    for (let i = m + 1; i < n; i++) if (magnitude(entry(a, i, m)) > magnitude(entry(a, pivot, m))) pivot = i;
    if (!(magnitude(entry(a, pivot, m)) > 0)) throw new RangeError('The matrix is singular.');
    [a[m], a[pivot]] = [a[pivot] as Complex[], a[m] as Complex[]];
    for (let i = m + 1; i < n; i++) {
      const factor = divide(entry(a, i, m), entry(a, m, m));
      for (let j = m; j <= n; j++) (a[i] as Complex[])[j] = subtract(entry(a, i, j), multiply(factor, entry(a, m, j)));
    }
  }
  const x: Complex[] = Array.from({ length: n }, () => complex(0));
  for (let i = n - 1; i >= 0; i--) {
    let rest = entry(a, i, n);
    for (let j = i + 1; j < n; j++) rest = subtract(rest, multiply(entry(a, i, j), x[j] as Complex));
    x[i] = divide(rest, entry(a, i, i));
  }
  return x;
}
