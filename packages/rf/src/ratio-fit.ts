import { add, type Complex, complex, divide, magnitude, multiply, subtract } from './complex.ts';
import { solveSymmetric } from './least-squares.ts';

type Polynomial = readonly Complex[];

const ZERO = complex(0);
const valueAt = (p: Polynomial, x: number): Complex =>
  p.reduceRight((sum, c) => complex(sum.re * x + c.re, sum.im * x + c.im), ZERO);

/** One complex equation as two real rows, over unknowns that are complex themselves: re, im, re, im … */
function realRows(terms: Polynomial): readonly [readonly number[], readonly number[]] {
  return [terms.flatMap(({ re, im }) => [re, -im]), terms.flatMap(({ re, im }) => [im, re])];
}

/** Least squares of complex linear equations by their normal equations. */
function solveComplex(rows: readonly Polynomial[], right: Polynomial): Polynomial | undefined {
  const real = rows.flatMap((row) => realRows(row));
  const wanted = right.flatMap(({ re, im }) => [re, im]);
  const count = real[0]?.length ?? 0;
  const sums = (weigh: (row: readonly number[], i: number) => number) =>
    real.reduce((sum, row, i) => sum + weigh(row, i), 0);
  const indices = Array.from({ length: count }, (_, i) => i);
  const normal = indices.map((i) =>
    indices.map((j) => sums((row) => (row[i] ?? 0) * (row[j] ?? 0)) * (i === j ? 1 + 1e-13 : 1)),
  );
  const slope = indices.map((i) => sums((row, k) => (row[i] ?? 0) * (wanted[k] ?? 0)));
  const [x] = solveSymmetric(normal, [slope]) ?? [];
  return x && Array.from({ length: count / 2 }, (_, i) => complex(x[2 * i] ?? 0, x[2 * i + 1] ?? 0));
}

/** Rounds of reweighting; they settle in fewer. */
const ROUNDS = 12;

/**
 * Least squares of z ≈ P(u)/Q(u), both of order n and Q with leading coefficient 1, each error weighed as the error of the reflection
 * (z - 1)/(z + 1). Linear equations P - zQ = 0 divided by the Q of the round before (Levy, IRE Trans. AC-4 (1959) 37; Sanathanan and
 * Koerner, IEEE Trans. AC-8 (1963) 56; both memory).
 */
function ratio(u: readonly number[], z: Polynomial, order: number): { p: Polynomial; q: Polynomial } | undefined {
  let weights = u.map(() => 1);
  let found: { p: Polynomial; q: Polynomial } | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const rows = u.map((x, k) => {
      const w = (weights[k] ?? 1) / (1 + magnitude(add(z[k] ?? ZERO, complex(1))));
      const powers = Array.from({ length: order + 1 }, (_, i) => x ** i * w);
      const zk = z[k] ?? ZERO;
      return [...powers.map((v) => complex(v)), ...powers.slice(0, order).map((v) => complex(-v * zk.re, -v * zk.im))];
    });
    const right = u.map((x, k) => {
      const zk = z[k] ?? ZERO;
      const w = ((weights[k] ?? 1) / (1 + magnitude(add(zk, complex(1))))) * x ** order;
      return complex(zk.re * w, zk.im * w);
    });
    const solved = solveComplex(rows, right);
    if (solved === undefined) return found;
    const q = [...solved.slice(order + 1), complex(1)];
    found = { p: solved.slice(0, order + 1), q };
    // The error of the reflection is that of z times 2/(z + 1)²: one factor stands above, the other here.
    weights = u.map((x, k) => 1 / (magnitude(valueAt(q, x)) * magnitude(add(z[k] ?? ZERO, complex(1))) + 1e-9));
  }
  return found;
}

/** The leading term of a/b for polynomials whose orders differ by one, as c1 u + c0, and what is left. */
function divided(a: Polynomial, b: Polynomial): { slope: Complex; offset: Complex; rest: Polynomial } {
  const leadB = b.at(-1) ?? ZERO;
  const slope = divide(a.at(-1) ?? ZERO, leadB);
  const first = a.slice(0, -1).map((c, i) => (i === 0 ? c : subtract(c, multiply(slope, b[i - 1] ?? ZERO))));
  const offset = divide(first.at(-1) ?? ZERO, leadB);
  const rest = first.slice(0, -1).map((c, i) => subtract(c, multiply(offset, b[i] ?? ZERO)));
  return { slope, offset, rest };
}

/**
 * Parameters of the resonator chain (see `ResonatorChain`) of order n whose z(u) fits best; undefined when the data do not tell it.
 * `u` is the detuning, `z` the impedance over the reference.
 */
export function fitRatio(u: readonly number[], z: readonly Complex[], order: number): readonly number[] | undefined {
  // Powers of a detuning near 1 stay apart.
  const span = Math.max(...u.map(Math.abs));
  const scaled = u.map((x) => x / span);
  const fraction = ratio(scaled, z, order);
  if (fraction === undefined) return undefined;
  const series = fraction.p[order] ?? ZERO;
  // P = series Q + rest; z - series = rest/Q, and Q/rest begins with a term that is linear in u.
  let top: Polynomial = fraction.p.slice(0, order).map((c, i) => subtract(c, multiply(series, fraction.q[i] ?? ZERO)));
  let bottom: Polynomial = fraction.q;
  const parameters: number[] = [series.re, series.im];
  let before: Complex | undefined;
  for (let i = 0; i < order; i++) {
    const { slope, offset, rest } = divided(bottom, top);
    // Q/top = slope (u' + offset/slope + rest/(slope top)) with u' = u/span: j(u - u_i) times (slope span^-1 / j).
    const factor = divide(complex(0, span), slope);
    const place = multiply(divide(offset, slope), complex(-span));
    const strength = before === undefined ? factor : multiply(before, factor);
    parameters.push(strength.re, strength.im, place.re, place.im);
    // What is left is top/rest again, of the opposite sign in the chain.
    before = divide(complex(0, -span), slope);
    bottom = top;
    top = rest;
  }
  return parameters;
}
