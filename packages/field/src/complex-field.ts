import type { ComplexField } from './surface-sampler.ts';

/** One step of a Fourier integral: what a sample counts, in the real and the imaginary part. */
export interface Turn {
  readonly c: number;
  readonly s: number;
}

export const zeros = (count: number): ComplexField => ({ re: new Float64Array(count), im: new Float64Array(count) });

export function addTo({ re, im }: ComplexField, n: number, value: number, { c, s }: Turn): void {
  re[n] = (re[n] as number) + c * value;
  im[n] = (im[n] as number) + s * value;
}

/** Of the absolute value. */
export const squared = ({ re, im }: ComplexField, n: number): number => (re[n] as number) ** 2 + (im[n] as number) ** 2;
