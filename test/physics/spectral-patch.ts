import { SPEED_OF_LIGHT } from '@sheetwave/field';
import { cotangent, determinant, minus, over, type Pair, plus, root, scaled, size, times } from './complex-pairs.ts';

/**
 * A witness from the frequency domain: the complex resonance of a rectangular patch without thickness on an endless grounded
 * slab, by Galerkin's method in the spectral domain (T. Itoh and W. Menzel, IEEE Trans. AP-29 (1981) 94; the fields of a
 * sheet of current on a slab by its TM and TE lines, D. M. Pozar, IEEE Trans. AP-30 (1982) 1191; from memory, derived anew).
 * It has no grid, no absorbing layer and no port, and its functions hold the singular edges exactly.
 *
 * Current along x, even in x and y: sqrt(1 - u^2) U_2p(u) T_2q(v)/sqrt(1 - v^2), and along y, odd in both:
 * T_(2p+1)(u)/sqrt(1 - u^2) sqrt(1 - v^2) U_(2q+1)(v), with u = 2x/L, v = 2y/W. Their transforms are Bessel functions.
 */
export interface SlabPatch {
  readonly lengthM: number;
  readonly widthM: number;
  readonly heightM: number;
  readonly permittivity: number;
  /** An endless sheet above the patch, with air between. */
  readonly cover?: { readonly gapM: number; readonly thicknessM: number; readonly permittivity: number };
}

interface Mode {
  readonly along: 'x' | 'y';
  readonly p: number;
  readonly q: number;
}

const MODES: readonly Mode[] = [
  ...[0, 1].flatMap((p) => [0, 1].map((q): Mode => ({ along: 'x', p, q }))),
  { along: 'y', p: 0, q: 0 },
];

/** Highest order of a Bessel function that the modes need. */
const ORDERS = 5;

/** Sum of the power series; enough up to arguments of about 10. */
function besselSeries(order: number, z: Pair): Pair {
  const half = scaled(z, 0.5);
  let term: Pair = [1, 0];
  for (let k = 1; k <= order; k++) term = scaled(times(term, half), 1 / k);
  const square = scaled(times(half, half), -1);
  let sum = term;
  for (let k = 1; k < 40; k++) {
    term = scaled(times(term, square), 1 / (k * (k + order)));
    sum = plus(sum, term);
  }
  return sum;
}

/** J_0 to J_ORDERS of a real argument: series, or Hankel's expansion (Abramowitz & Stegun, 9.2.5) and the rising recurrence. */
function besselReal(x: number, found: Float64Array): Float64Array {
  if (x < 12) {
    for (let n = 0; n <= ORDERS; n++) found[n] = realSeries(n, x);
    return found;
  }
  found[0] = hankel(0, x);
  found[1] = hankel(1, x);
  for (let n = 1; n < ORDERS; n++) found[n + 1] = ((2 * n) / x) * (found[n] as number) - (found[n - 1] as number);
  return found;
}

function realSeries(order: number, x: number): number {
  let term = 1;
  for (let k = 1; k <= order; k++) term *= x / 2 / k;
  let sum = term;
  for (let k = 1; k < 35; k++) {
    term *= (-x * x) / 4 / (k * (k + order));
    sum += term;
  }
  return sum;
}

function hankel(order: number, x: number): number {
  let term = 1;
  let [p, q] = [1, 0];
  for (let k = 1; k <= 8; k++) {
    term *= (4 * order * order - (2 * k - 1) ** 2) / (8 * k * x);
    if (k % 2 === 1) q += k % 4 === 1 ? term : -term;
    else p += k % 4 === 2 ? -term : term;
  }
  const phase = x - (order / 2 + 0.25) * Math.PI;
  return Math.sqrt(2 / (Math.PI * x)) * (p * Math.cos(phase) - q * Math.sin(phase));
}

/** Gauss's rule of eight points on -1 to 1. */
const GAUSS: readonly Pair[] = (
  [
    [0.1834346424956498, 0.362683783378362],
    [0.525532409916329, 0.3137066458778873],
    [0.7966664774136267, 0.2223810344533745],
    [0.9602898564975363, 0.1012285362903763],
  ] as const
).flatMap(([x, w]): Pair[] => [
  [-x, w],
  [x, w],
]);

interface Sample {
  readonly beta: Pair;
  readonly step: Pair;
}

/** Evenly divided panels of a real interval with Gauss's points, in rising order. */
function panels(from: number, to: number, count: number): Pair[] {
  const width = (to - from) / count;
  return Array.from({ length: count }, (_, n) =>
    GAUSS.map(([x, w]): Pair => [from + width * (n + 0.5 + x / 2), (w * width) / 2]),
  )
    .flat()
    .sort((a, b) => a[0] - b[0]);
}

/** Over the poles of the surface waves in an arc, then along the real axis. */
function path({ permittivity, heightM, lengthM, widthM, cover }: SlabPatch, k0: number, reach: number) {
  const past = 1.6 * Math.sqrt(Math.max(permittivity, cover?.permittivity ?? 1)) * k0;
  const arc = panels(0, past, 24).map(([t, w]): Sample => {
    const turn = (Math.PI * t) / past;
    const rise = (0.5 * k0 * Math.PI * Math.cos(turn)) / past;
    return { beta: [t, 0.5 * k0 * Math.sin(turn)], step: [w, w * rise] };
  });
  const end = reach / heightM;
  const straight = panels(past, end, Math.ceil(((end - past) * Math.max(lengthM, widthM)) / 5));
  return { arc, straight: straight.map(([t, w]): Sample => ({ beta: [t, 0], step: [w, 0] })) };
}

/** What a wave meets looking up through a layer of this height: Y (Y_L cot + j Y) / (Y cot + j Y_L), even in the direction of the root. */
function through(own: Pair, load: Pair, turn: Pair): Pair {
  const j: Pair = [0, 1];
  return times(own, over(plus(times(load, turn), times(j, own)), plus(times(own, turn), times(j, load))));
}

/** Admittances of the TM and TE waves upward from the sheet, over that of free space: through the air and the cover to the open. */
function upward(
  k0: Pair,
  beta: Pair,
  above: Pair,
  cover: SlabPatch['cover'],
): { readonly tm: Pair; readonly te: Pair } {
  const free = { tm: over(k0, above), te: over(above, k0) };
  if (cover === undefined) return free;
  const { gapM, thicknessM, permittivity } = cover;
  const inside = root(minus(scaled(times(k0, k0), permittivity), times(beta, beta)));
  const [turn, air] = [cotangent(scaled(inside, thicknessM)), cotangent(scaled(above, gapM))];
  const tm = through(over(scaled(k0, permittivity), inside), free.tm, turn);
  const te = through(over(inside, k0), free.te, turn);
  return { tm: through(free.tm, tm, air), te: through(free.te, te, air) };
}

/** Impedances of the TM and TE waves at the sheet, over that of free space. */
function impedances(k0: Pair, beta: Pair, above: Pair, { permittivity, heightM, cover }: SlabPatch) {
  const inside = root(minus(scaled(times(k0, k0), permittivity), times(beta, beta)));
  const turn = cotangent(scaled(inside, heightM));
  const up = upward(k0, beta, above, cover);
  const tm = plus(up.tm, times([0, -permittivity], over(times(k0, turn), inside)));
  const te = plus(up.te, over(times([0, -1], times(inside, turn)), k0));
  return { tm: over([1, 0], tm), te: over([1, 0], te) };
}

/** Sign and factor of a mode's transform. */
const factorOf = ({ along, p, q }: Mode): number =>
  ((p + q) % 2 === 0 ? 1 : -1) * (along === 'x' ? 2 * p + 1 : -(2 * q + 2));

/** Transforms of the modes at one direction, on the arc. */
function complexTransforms(a: Pair, b: Pair): Pair[] {
  const bessel = (z: Pair) => Array.from({ length: ORDERS + 1 }, (_, n) => besselSeries(n, z));
  const [ja, jb] = [bessel(a), bessel(b)];
  // J_n(z)/z at 0: one half for n = 1, else 0.
  const quotient = (j: readonly Pair[], n: number, z: Pair): Pair =>
    size(z) < 1e-9 ? [n === 1 ? 0.5 : 0, 0] : over(j[n] as Pair, z);
  return MODES.map((mode) => {
    const { along, p, q } = mode;
    const product =
      along === 'x'
        ? times(quotient(ja, 2 * p + 1, a), jb[2 * q] as Pair)
        : times(ja[2 * p + 1] as Pair, quotient(jb, 2 * q + 2, b));
    return scaled(product, factorOf(mode));
  });
}

const scratch = {
  ja: new Float64Array(ORDERS + 1),
  jb: new Float64Array(ORDERS + 1),
  found: new Float64Array(MODES.length),
};

/** The same on the axis, where they are real. The answer is overwritten by the next call. */
function realTransforms(a: number, b: number): Float64Array {
  const [ja, jb] = [besselReal(a, scratch.ja), besselReal(b, scratch.jb)];
  const quotient = (j: Float64Array, n: number, x: number) => (x < 1e-9 ? (n === 1 ? 0.5 : 0) : (j[n] as number) / x);
  MODES.forEach((mode, m) => {
    const { along, p, q } = mode;
    const product =
      along === 'x'
        ? quotient(ja, 2 * p + 1, a) * (jb[2 * q] as number)
        : (ja[2 * p + 1] as number) * quotient(jb, 2 * q + 2, b);
    scratch.found[m] = factorOf(mode) * product;
  });
  return scratch.found;
}

/** What one direction of the spectrum adds: to the reactions of x with x, y with y and x with y. */
interface Parts {
  readonly xx: Pair;
  readonly yy: Pair;
  readonly xy: Pair;
}

/** Determinant of the reactions between the modes at a complex wave number; 0 at a resonance. */
function reaction(patch: SlabPatch, k0: Pair, reach: number): Pair {
  const sums = MODES.map(() => MODES.map((): [number, number] => [0, 0]));
  const { arc, straight } = path(patch, k0[0], reach);
  let above = k0;
  for (const { beta, step } of [...arc, ...straight]) {
    const onArc = beta[1] !== 0;
    const value = root(minus(times(k0, k0), times(beta, beta)));
    // On the arc the root goes on without a jump; on the axis the wave dies away upwards.
    const flips = onArc ? value[0] * above[0] + value[1] * above[1] < 0 : value[1] > 0;
    above = scaled(value, flips ? -1 : 1);
    const { tm, te } = impedances(k0, beta, above, patch);
    const count = Math.ceil(24 + beta[0] * Math.hypot(patch.lengthM, patch.widthM));
    const ring = scaled(times(beta, step), Math.PI / 2 / count);
    for (let n = 0; n <= count; n++) {
      const [c, s] = [Math.cos((Math.PI / 2) * (n / count)), Math.sin((Math.PI / 2) * (n / count))];
      const weight = scaled(ring, n === 0 || n === count ? 0.5 : 1);
      const parts: Parts = {
        xx: times(weight, plus(scaled(tm, c * c), scaled(te, s * s))),
        yy: times(weight, plus(scaled(tm, s * s), scaled(te, c * c))),
        xy: times(weight, scaled(minus(tm, te), c * s)),
      };
      const [a, b] = [(c * patch.lengthM) / 2, (s * patch.widthM) / 2];
      if (onArc) addComplex(sums, parts, complexTransforms(scaled(beta, a), scaled(beta, b)));
      else addReal(sums, parts, realTransforms(beta[0] * a, beta[0] * b));
    }
  }
  return determinant(sums.map((row) => row.map((each) => scaled(each, 1e3))));
}

const partOf = (parts: Parts, mode: Mode, other: Mode): Pair =>
  mode.along === other.along ? (mode.along === 'x' ? parts.xx : parts.yy) : parts.xy;

function addComplex(sums: [number, number][][], parts: Parts, found: readonly Pair[]): void {
  for (const [m, mode] of MODES.entries()) {
    for (const [n, other] of MODES.entries()) {
      const add = times(partOf(parts, mode, other), times(found[m] as Pair, found[n] as Pair));
      const sum = sums[m]?.[n] as [number, number];
      sum[0] += add[0];
      sum[1] += add[1];
    }
  }
}

function addReal(sums: [number, number][][], parts: Parts, found: Float64Array): void {
  for (let m = 0; m < MODES.length; m++) {
    for (let n = 0; n < MODES.length; n++) {
      const part = partOf(parts, MODES[m] as Mode, MODES[n] as Mode);
      const product = (found[m] as number) * (found[n] as number);
      const sum = sums[m]?.[n] as [number, number];
      sum[0] += part[0] * product;
      sum[1] += part[1] * product;
    }
  }
}

/** Frequency (Hz) and quality of the resonance near a guess, the spectrum cut off at `reach` over the height: the secant rule. */
function resonanceTo(patch: SlabPatch, guess: { freqHz: number; q: number }, reach: number) {
  const at = (freq: Pair) => reaction(patch, scaled(freq, (2 * Math.PI) / SPEED_OF_LIGHT), reach);
  let before: Pair = [guess.freqHz, guess.freqHz / 2 / guess.q];
  let here: Pair = [1.003 * guess.freqHz, (1.05 * guess.freqHz) / 2 / guess.q];
  let valueBefore = at(before);
  for (let n = 0; n < 12 && size(minus(here, before)) > 1e-5 * guess.freqHz; n++) {
    const value = at(here);
    const next = minus(here, times(value, over(minus(here, before), minus(value, valueBefore))));
    [before, valueBefore, here] = [here, value, next];
  }
  return { freqHz: here[0], q: here[0] / 2 / here[1] };
}

/** What is cut off falls as one over the reach: two reaches tell the rest (checked against twice the reach and twice the modes: 0.05 %). */
export function slabPatchResonance(patch: SlabPatch, guess: { freqHz: number; q: number }) {
  const short = resonanceTo(patch, guess, 15);
  const long = resonanceTo(patch, short, 30);
  return { freqHz: 2 * long.freqHz - short.freqHz, q: long.q };
}

/** The same with what lies beyond a short reach left out: a third of the work, for how patches of one size and board differ. */
export const roughResonance = (patch: SlabPatch, guess: { freqHz: number; q: number }) => resonanceTo(patch, guess, 15);
