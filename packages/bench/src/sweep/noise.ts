import { type Complex, complex, multiply, polar } from '@sheetwave/rf';
import { median, turns } from './phase.ts';

/**
 * Noise of each part of the reflection (rms), from how far its samples scatter about a smooth curve: the delay is taken out, then third differences,
 * whose variance is 20 times that of the noise (1 + 9 + 9 + 1) while a parabola leaves none. A median, so that a sharp
 * resonance does not count: 0.6745 is the median of a normal deviation (any table of the normal distribution). Undefined below 12 points.
 */
export function sweepNoise(gamma: readonly Complex[]): number | undefined {
  if (gamma.length < 12) return undefined;
  const turn = median(turns(gamma));
  const still = gamma.map((value, i) => multiply(value, polar(1, -turn * i)));
  const thirds = still.slice(3).map((value, i) => third([still[i], still[i + 1], still[i + 2], value]));
  const sizes = thirds.flatMap(({ re, im }) => [Math.abs(re), Math.abs(im)]);
  return median(sizes) / 0.6745 / Math.sqrt(20);
}

function third([a, b, c, d]: readonly (Complex | undefined)[]): Complex {
  const part = (key: 're' | 'im') => (d?.[key] ?? 0) - 3 * (c?.[key] ?? 0) + 3 * (b?.[key] ?? 0) - (a?.[key] ?? 0);
  return complex(part('re'), part('im'));
}
