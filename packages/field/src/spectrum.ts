import { type Complex, complex } from './complex.ts';

/** Integral of x(t) exp(-j 2 pi f t) dt of a series whose sample n lies at (n + shift) * interval. */
export function transform(series: Float64Array, freqHz: number, { interval, shift }: Sampling): Complex {
  const turn = -2 * Math.PI * freqHz * interval;
  // A rotating phasor, put right every 256 samples, is much faster than a sine and a cosine for each.
  const [stepRe, stepIm] = [Math.cos(turn), Math.sin(turn)];
  let re = 0;
  let im = 0;
  let [c, s] = [0, 0];
  for (let n = 0; n < series.length; n++) {
    if (n % 256 === 0) [c, s] = [Math.cos(turn * (n + shift)), Math.sin(turn * (n + shift))];
    const value = series[n] as number;
    re += value * c;
    im += value * s;
    const next = c * stepRe - s * stepIm;
    s = c * stepIm + s * stepRe;
    c = next;
  }
  return complex(re * interval, im * interval);
}

export interface Sampling {
  /** s. */
  readonly interval: number;
  /** Time of sample 0 in intervals. */
  readonly shift: number;
}
