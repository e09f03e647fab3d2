import type { Complex } from './complex.ts';
import { fitLeastSquares } from './least-squares.ts';
import { fitRatio } from './ratio-fit.ts';
import { requireCount, requirePositive } from './require.ts';

/**
 * A stack of patches as a circuit: behind a series impedance a chain of resonators, each coupled to the next,
 *
 *   z(f) = r + j x f/f0 + R / (j(u - u1) - c1 / (j(u - u2) - c2 / (…))),   u = f/f0 - f0/f,
 *
 * in units of the reference impedance. Re u_i = 2 ln(f_i/f0) is the detuning of resonator i, Im u_i = 1/Q_i its loss and radiation;
 * c_i = -k_i² of a reactive coupling k_i. All of u, c and R are complex: patches that radiate together are coupled by a resistance too.
 * This is the continued fraction of a rational function of the same order (coupled resonators: Atia and Williams, IEEE Trans. MTT-20
 * (1972) 258; memory), so that any response of that order is one chain and one only.
 */
export interface ResonatorChain {
  readonly centreHz: number;
  readonly referenceOhm: number;
  /** r, x, Re R, Im R, then for each resonator Re u, Im u, and between each two Re c, Im c. Length 4 n + 2. */
  readonly parameters: readonly number[];
}

/** How many parameters a chain of `resonators` has. */
export const chainLength = (resonators: number): number => 4 * resonators + 2;

/** A change of each parameter that is felt about as much as the others. */
export function chainScales(resonators: number): readonly number[] {
  const perResonator = Array.from({ length: resonators }, (_, i) =>
    i === 0 ? [0.02, 0.02] : [0.005, 0.005, 0.02, 0.02],
  );
  return [0.1, 0.1, 0.02, 0.02, ...perResonator.flat()];
}

/** Reflection at the input of a chain, in the order of the frequencies: re, im, re, im … */
export function chainReflection({ centreHz, parameters }: ResonatorChain, freqHz: readonly number[]): Float64Array {
  const resonators = (parameters.length - 2) / 4;
  const p = parameters as number[];
  const value = (i: number): number => p[i] ?? 0;
  const result = new Float64Array(2 * freqHz.length);
  for (let k = 0; k < freqHz.length; k++) {
    const ratio = (freqHz[k] ?? 0) / centreHz;
    const u = ratio - 1 / ratio;
    let re = 0;
    let im = 0;
    for (let i = resonators - 1; i >= 0; i--) {
      const own = i === 0 ? 4 : 4 * i + 4;
      // j(u - u_i) = Im u_i + j(u - Re u_i); what hangs behind is (re, im), already times its coupling.
      const bottomRe = value(own + 1) - re;
      const bottomIm = u - value(own) - im;
      const size = bottomRe * bottomRe + bottomIm * bottomIm;
      const factor = i === 0 ? 2 : own - 2;
      const topRe = value(factor);
      const topIm = value(factor + 1);
      re = (topRe * bottomRe + topIm * bottomIm) / size;
      im = (topIm * bottomRe - topRe * bottomIm) / size;
    }
    const zRe = value(0) + re;
    const zIm = value(1) * ratio + im;
    const bottom = (zRe + 1) ** 2 + zIm ** 2;
    result[2 * k] = (zRe ** 2 - 1 + zIm ** 2) / bottom;
    result[2 * k + 1] = (2 * zIm) / bottom;
  }
  return result;
}

/** A reflection over frequency that a chain is to describe. */
export interface ChainData {
  readonly freqHz: readonly number[];
  readonly reflection: readonly Complex[];
  readonly referenceOhm: number;
}

export interface ChainFit {
  readonly chain: ResonatorChain;
  /** Root mean square of what is left, as an absolute difference of reflection. */
  readonly residual: number;
}

interface ChainOptions {
  readonly centreHz: number;
  readonly resonators: number;
  /** Begins there and stays near it, where the data leave a choice; without it the start is a rational fit of the data. */
  readonly near?: readonly number[] | undefined;
  /** As far as this from `near` a parameter costs as much as one sample missed by 1. Default: so far that `near` only decides what the data do not. */
  readonly spreads?: readonly number[] | undefined;
}

/** Root mean square that needs no second try. */
const GOOD = 0.02;
/** How much a pull by one scale toward `near` costs, against a residual of one sample. */
const PULL = 0.003;

/**
 * The chain that describes a reflection best. Needs at least twice as many frequencies as the chain has complex parameters.
 * Throws RangeError for fewer.
 */
export function fitChain(data: ChainData, { centreHz, resonators, near, spreads }: ChainOptions): ChainFit {
  requireCount({ resonators });
  requirePositive({ centreHz, referenceOhm: data.referenceOhm });
  const { freqHz, reflection } = data;
  if (freqHz.length < chainLength(resonators)) {
    throw new RangeError(
      `${freqHz.length} frequencies do not tell ${resonators} resonators; give ${chainLength(resonators)}.`,
    );
  }
  const scales = chainScales(resonators);
  const pulls = scales.map((scale, i) => (spreads === undefined ? PULL / scale : 1 / (spreads[i] ?? scale)));
  const starts = near === undefined ? ratioStarts(data, centreHz, resonators) : [near];
  const fitFrom = (start: readonly number[]) =>
    fitLeastSquares({
      start,
      scales,
      residuals: (parameters) => {
        const found = chainReflection({ centreHz, referenceOhm: data.referenceOhm, parameters }, freqHz);
        const misses: number[] = [];
        for (let k = 0; k < reflection.length; k++) {
          misses.push(
            (found[2 * k] ?? 0) - (reflection[k]?.re ?? 0),
            (found[2 * k + 1] ?? 0) - (reflection[k]?.im ?? 0),
          );
        }
        near?.forEach((value, i) => {
          misses.push(((parameters[i] ?? 0) - value) * (pulls[i] ?? 0));
        });
        return misses;
      },
    });
  const [first = [], ...others] = starts;
  let best = fitFrom(first);
  // The rational fit is nearly always the answer; the plain start is for when it was led astray.
  for (const start of others) {
    if (best.sum < freqHz.length * GOOD ** 2) break;
    const fit = fitFrom(start);
    if (fit.sum < best.sum) best = fit;
  }
  const chain = { centreHz, referenceOhm: data.referenceOhm, parameters: best.parameters };
  return { chain, residual: missOf(chain, data) };
}

function missOf(chain: ResonatorChain, { freqHz, reflection }: ChainData): number {
  const found = chainReflection(chain, freqHz);
  const sum = reflection.reduce(
    (total, s, k) => total + (s.re - (found[2 * k] ?? 0)) ** 2 + (s.im - (found[2 * k + 1] ?? 0)) ** 2,
    0,
  );
  return Math.sqrt(sum / freqHz.length);
}

/** From the rational fit of z(u), and a plain guess in case that is no use. */
function ratioStarts(data: ChainData, centreHz: number, resonators: number): readonly (readonly number[])[] {
  const plain = plainStart(data, centreHz, resonators);
  const u = data.freqHz.map((f) => f / centreHz - centreHz / f);
  const z = data.reflection.map(({ re, im }) => {
    const bottom = (1 - re) ** 2 + im ** 2 + 1e-9;
    return { re: (1 - re * re - im * im) / bottom, im: (2 * im) / bottom };
  });
  // The series reactance grows with frequency, which the ratio of polynomials does not know: it is taken off before the next round.
  let fraction: readonly number[] | undefined;
  for (let round = 0; round < 4; round++) {
    const x = fraction?.[1] ?? 0;
    const flat = z.map(({ re, im }, k) => ({ re, im: im - x * ((data.freqHz[k] ?? 0) / centreHz - 1) }));
    const next = fitRatio(u, flat, resonators);
    if (next === undefined || !next.every(Number.isFinite)) break;
    fraction = next;
  }
  return fraction ? [fraction, plain] : [plain];
}

/** Resonators spread over the middle half of the sweep, loosely coupled, Q of 10. */
function plainStart({ freqHz }: ChainData, centreHz: number, resonators: number): readonly number[] {
  const low = freqHz[0] ?? centreHz;
  const high = freqHz.at(-1) ?? centreHz;
  const places = Array.from({ length: resonators }, (_, i) => {
    const f = low + (high - low) * (0.25 + (0.5 * (i + 0.5)) / resonators);
    return 2 * Math.log(f / centreHz);
  });
  const links = places.flatMap((place, i) => (i === 0 ? [place, 0.1] : [-0.01, 0, place, 0.1]));
  return [0, 0.5, 0.15, 0, ...links];
}
