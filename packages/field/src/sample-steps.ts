import type { Waveform } from './waveform.ts';

/** Steps of a batch without far fields, and most steps of any. */
const USUAL = 64;
const MOST = 192;

/** Part by which a multiple of the sampling rate must miss what would be mistaken for a frequency that is wanted. */
const MISS = 0.02;

/**
 * Steps between two samples of the fields: as many as leave the Fourier sums at these frequencies right. Samples at the
 * rate r take what a frequency g sends for f where g + f or g - f is a multiple of r (sampling of a band, R. G. Vaughan et
 * al., IEEE Trans. SP-39 (1991) 1973). The pulse sends from `lowest` to `highest` only.
 */
export function sampleSteps(dt: number, { lowest, highest }: Waveform, freqHz: readonly number[]): number {
  if (freqHz.length === 0) return USUAL;
  const isRight = (steps: number) => {
    const rate = 1 / (steps * dt);
    return freqHz.every((freq) => {
      if (Math.max(highest - freq, freq - lowest) * (1 + MISS) > rate) return false;
      // No multiple of the rate between freq + lowest and freq + highest.
      const [from, to] = [((freq + lowest) * (1 - MISS)) / rate, ((freq + highest) * (1 + MISS)) / rate];
      return Math.floor(to) < from;
    });
  };
  for (let steps = MOST; steps > 1; steps--) if (isRight(steps)) return steps;
  return 1;
}
