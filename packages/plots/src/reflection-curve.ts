import { type Complex, magnitude, type Response, type ResponseOrigin } from '@sheetwave/rf';
import type { Look } from './look.ts';

/** Reflection of one port over frequency, under the name that the diagram gives it. */
export interface ReflectionCurve {
  readonly name: string;
  /** Hz, rising. */
  readonly freqHz: readonly number[];
  /** At freqHz[i]. */
  readonly reflection: readonly Complex[];
  readonly referenceOhm: number;
  readonly look?: Look;
  /** How far off it may be: relative along frequency, absolute of each coefficient. Drawn as a band. */
  readonly error?: { readonly frequency?: number; readonly coefficient?: number };
}

const LOOK_OF: Readonly<Record<ResponseOrigin, Look>> = {
  prediction: 'full',
  estimate: 'dashed',
  measurement: 'ringed',
};

/** The reflection at one port of a response, in the look of where it comes from. */
export function reflectionCurve(name: string, response: Response, port = 0): ReflectionCurve {
  const { freqHz, s, referenceOhm, origin, error } = response;
  const reflection = s.map((matrix) => {
    const own = matrix[port]?.[port];
    if (own === undefined) throw new RangeError(`port must be below ${matrix.length}, not ${port}.`);
    return own;
  });
  return { name, freqHz, reflection, referenceOhm, look: LOOK_OF[origin], error };
}

/** Lowest and highest magnitude at each frequency, if every feature may lie elsewhere by the frequency error and off by that of the coefficient. */
export interface MagnitudeBand {
  readonly lower: readonly number[];
  readonly upper: readonly number[];
}

/**
 * The band about the magnitudes of a curve; undefined for one without an error. A passive reflection stays within 0 to 1.
 * Beyond the ends of the sweep nothing is known, so that the band is narrower there.
 */
export function magnitudeBand({ freqHz, reflection, error }: ReflectionCurve): MagnitudeBand | undefined {
  const { frequency = 0, coefficient = 0 } = error ?? {};
  if (!(frequency > 0 || coefficient > 0)) return undefined;
  const sizes = reflection.map(magnitude);
  const between = interpolator(freqHz, sizes);
  const ranges = freqHz.map((here) => {
    const [low, high] = [here * (1 - frequency), here * (1 + frequency)];
    const within = [between(low), between(high), ...sizesWithin(freqHz, sizes, { low, high })];
    return { least: Math.min(...within), most: Math.max(...within) };
  });
  return {
    lower: ranges.map(({ least }) => Math.max(0, least - coefficient)),
    upper: ranges.map(({ most }) => Math.max(most, Math.min(1, most + coefficient))),
  };
}

function sizesWithin(
  freqHz: readonly number[],
  sizes: readonly number[],
  { low, high }: { readonly low: number; readonly high: number },
): readonly number[] {
  const first = firstAbove(freqHz, low);
  const found: number[] = [];
  for (let i = first; i < freqHz.length && (freqHz[i] ?? high) < high; i += 1) found.push(sizes[i] ?? Number.NaN);
  return found;
}

/** Index of the first frequency above a value: their count when none is. */
function firstAbove(freqHz: readonly number[], value: number): number {
  let [low, high] = [0, freqHz.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((freqHz[middle] ?? 0) > value) high = middle;
    else low = middle + 1;
  }
  return low;
}

function interpolator(freqHz: readonly number[], values: readonly number[]): (hz: number) => number {
  return (hz) => {
    const { index, part } = placeOf(freqHz, hz);
    const [a = Number.NaN, b = a] = [values[index], values[index + 1]];
    return part === 0 ? a : a + (b - a) * part;
  };
}

/** Between which two samples a frequency lies, and how far along; the ends of the sweep hold beyond them. */
function placeOf(freqHz: readonly number[], hz: number): { readonly index: number; readonly part: number } {
  const index = firstAbove(freqHz, hz) - 1;
  const [from, to] = [freqHz[index], freqHz[index + 1]];
  if (from === undefined) return { index: 0, part: 0 };
  return to === undefined ? { index, part: 0 } : { index, part: (hz - from) / (to - from) };
}

/** The reflection at a frequency, on the straight line between the samples around it; undefined outside the sweep. */
export function reflectionAt({ freqHz, reflection }: ReflectionCurve, hz: number): Complex | undefined {
  const [first, last] = [freqHz[0], freqHz.at(-1)];
  if (first === undefined || last === undefined || hz < first || hz > last) return undefined;
  const { index, part } = placeOf(freqHz, hz);
  const a = reflection[index];
  const b = reflection[index + 1] ?? a;
  if (a === undefined || b === undefined) return undefined;
  return { re: a.re + (b.re - a.re) * part, im: a.im + (b.im - a.im) * part };
}
