import { angle, type Complex, conjugate, multiply } from '@sheetwave/rf';

/** Turn from each sample to the next, rad, -pi to pi: a faster turn cannot be told from a slower one. */
export const turns = (gamma: readonly Complex[]): readonly number[] =>
  gamma.slice(1).map((value, i) => angle(multiply(value, conjugate(gamma[i] ?? value))));

/** Phase without jumps, rad, beginning with that of the first sample. */
export function unwrapped(gamma: readonly Complex[]): readonly number[] {
  const [first] = gamma;
  if (first === undefined) return [];
  let phase = angle(first);
  return [phase, ...turns(gamma).map((turn) => (phase += turn))];
}

/** Median of numbers; NaN of none. */
export function median(values: readonly number[]): number {
  return quantile(values, 0.5);
}

/** The value below which a share of the numbers lies, between neighbours by a straight line. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const place = (sorted.length - 1) * share;
  const low = sorted[Math.floor(place)] ?? Number.NaN;
  const high = sorted[Math.ceil(place)] ?? Number.NaN;
  return low + (high - low) * (place - Math.floor(place));
}
