import type { Band } from './scene.ts';

/** The voltage of the generator over time: a sine under a Gaussian, so that nothing is sent at zero frequency. */
export interface Waveform {
  /** V at a time in s; 1 V at most. */
  readonly at: (seconds: number) => number;
  /** s, after which it is below 4e-5. */
  readonly end: number;
  /** Hz, between which all is sent but less than -80 dB of the peak of the spectrum. */
  readonly lowest: number;
  readonly highest: number;
}

/** Level at the ends of the band relative to its centre: exp(-1.2) = -10 dB. */
const EDGE = 1.2;
/** exp(-x^2) = 4e-5 and 1e-4 at these x. */
const QUIET = 3.2;
const MINUS_80_DB = 3.03;

export function pulseFor({ low, high }: Band): Waveform {
  const centre = (low + high) / 2;
  const halfWidth = Math.max((high - low) / 2, 0.12 * centre);
  // The transform of exp(-(t/s)^2) is exp(-(pi s f)^2).
  const s = Math.sqrt(EDGE) / (Math.PI * halfWidth);
  const middle = QUIET * s;
  return {
    at: (t) => Math.exp(-(((t - middle) / s) ** 2)) * Math.sin(2 * Math.PI * centre * (t - middle)),
    end: 2 * middle,
    lowest: Math.max(0, centre - MINUS_80_DB / (Math.PI * s)),
    highest: centre + MINUS_80_DB / (Math.PI * s),
  };
}
