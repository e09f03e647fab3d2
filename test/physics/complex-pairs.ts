/** A complex number as a pair: real, imaginary. */
export type Pair = readonly [re: number, im: number];

export const plus = (a: Pair, b: Pair): Pair => [a[0] + b[0], a[1] + b[1]];
export const minus = (a: Pair, b: Pair): Pair => [a[0] - b[0], a[1] - b[1]];
export const times = (a: Pair, b: Pair): Pair => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
export const scaled = (a: Pair, by: number): Pair => [a[0] * by, a[1] * by];
export const size = (a: Pair): number => Math.hypot(a[0], a[1]);

export function over(a: Pair, b: Pair): Pair {
  const d = b[0] * b[0] + b[1] * b[1];
  return [(a[0] * b[0] + a[1] * b[1]) / d, (a[1] * b[0] - a[0] * b[1]) / d];
}

/** The root with a real part of 0 or above. */
export function root([re, im]: Pair): Pair {
  const r = Math.hypot(re, im);
  const y = Math.sqrt(Math.max(0, (r - re) / 2));
  return [Math.sqrt(Math.max(0, (r + re) / 2)), im < 0 ? -y : y];
}

/** Cotangent, also far from the real axis. */
export function cotangent([x, y]: Pair): Pair {
  if (Math.abs(y) > 20) return [0, y < 0 ? 1 : -1];
  const cosine: Pair = [Math.cos(x) * Math.cosh(y), -Math.sin(x) * Math.sinh(y)];
  const sine: Pair = [Math.sin(x) * Math.cosh(y), Math.cos(x) * Math.sinh(y)];
  return over(cosine, sine);
}

/** Determinant by elimination with pivots; the matrix is used up. */
export function determinant(matrix: Pair[][]): Pair {
  let product: Pair = [1, 0];
  for (let i = 0; i < matrix.length; i++) {
    const below = matrix.slice(i);
    const pivot = below.reduce((best, row) => (size(row[i] as Pair) > size(best[i] as Pair) ? row : best));
    const at = matrix.indexOf(pivot);
    if (at !== i) {
      [matrix[i], matrix[at]] = [pivot, matrix[i] as Pair[]];
      product = scaled(product, -1);
    }
    product = times(product, pivot[i] as Pair);
    for (const row of matrix.slice(i + 1)) {
      const factor = over(row[i] as Pair, pivot[i] as Pair);
      for (let c = i; c < row.length; c++) row[c] = minus(row[c] as Pair, times(factor, pivot[c] as Pair));
    }
  }
  return product;
}
