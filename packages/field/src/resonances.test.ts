import { describe, expect, it } from 'vitest';
import { fitPoles, poleFrequency, poleQuality } from './resonances.ts';

const INTERVAL = 2e-11;
const signalOf = (count: number, at: (t: number) => number) =>
  Float64Array.from({ length: count }, (_, n) => at(n * INTERVAL));

const ringing = (freq: number, q: number, t: number) =>
  Math.exp((-Math.PI * freq * t) / q) * Math.cos(2 * Math.PI * freq * t + 0.7);

/** A repeatable stand-in for rounding. */
const noise = (n: number) => ((n * 7919) % 1000) / 500 - 1;

describe('damped oscillations', () => {
  it('are found again: two modes 4 % apart, quality 12 and 80', () => {
    const signal = signalOf(260, (t) => ringing(5e9, 12, t) + 0.3 * ringing(5.2e9, 80, t));
    const { poles, residual } = fitPoles(signal, { interval: INTERVAL });
    const found = poles.filter(({ s }) => s.im > 0).map((pole) => [poleFrequency(pole), poleQuality(pole)] as const);
    expect(residual).toBeLessThan(1e-6);
    for (const [freq, q] of [
      [5e9, 12],
      [5.2e9, 80],
    ] as const) {
      const [nearest] = [...found].sort((a, b) => Math.abs(a[0] - freq) - Math.abs(b[0] - freq));
      expect(nearest?.[0]).toBeCloseTo(freq, -5);
      expect(Math.abs((nearest?.[1] ?? 0) / q - 1)).toBeLessThan(0.01);
    }
  });

  it('survive the noise of 32-bit fields', () => {
    const signal = signalOf(260, (t) => ringing(5e9, 20, t)).map((value, n) => value + 1e-6 * noise(n));
    const { poles } = fitPoles(signal, { interval: INTERVAL });
    const freqs = poles.filter(({ s }) => s.im > 0).map(poleFrequency);
    expect(Math.min(...freqs.map((freq) => Math.abs(freq / 5e9 - 1)))).toBeLessThan(1e-4);
  });

  it('are not seen in a signal that is none', () => {
    const { residual } = fitPoles(
      signalOf(260, (t) => noise(t / INTERVAL)),
      { interval: INTERVAL, most: 8 },
    );
    expect(residual).toBeGreaterThan(0.1);
  });
});
