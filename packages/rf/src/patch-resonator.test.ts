import { describe, expect, it } from 'vitest';
import { magnitude } from './complex.ts';
import { bandwidthFromQuality } from './patch-quality.ts';
import { patchImpedance } from './patch-resonator.ts';
import { reflection, vswrOf } from './reflection.ts';

const patch = { resonanceHz: 2.45e9, quality: 15, resistanceOhm: 50, seriesOhm: 0 };

describe('the patch as a circuit', () => {
  it('is its resistance and its probe at resonance', () => {
    expect(patchImpedance({ ...patch, seriesOhm: 30 }, 2.45e9)).toEqual({ re: 50, im: 30 });
  });

  it('reaches VSWR 2 at the ends of the band that the quality factor gives', () => {
    const half = bandwidthFromQuality(15, 2) / 2;
    // Ends of the band of a resonator: f0 (sqrt(1 + h^2) +- h).
    for (const sign of [-1, 1]) {
      const f = 2.45e9 * (Math.sqrt(1 + half * half) + sign * half);
      expect(vswrOf(patchImpedance(patch, f), 50)).toBeCloseTo(2, 6);
    }
  });

  it('has a probe that grows with frequency, or a capacitance that falls', () => {
    expect(patchImpedance({ ...patch, resistanceOhm: 1e-9, seriesOhm: 30 }, 4.9e9).im).toBeCloseTo(60, 6);
    expect(patchImpedance({ ...patch, resistanceOhm: 1e-9, seriesOhm: -30 }, 4.9e9).im).toBeCloseTo(-15, 6);
  });

  it('stays passive over the spectrum', () => {
    for (let f = 1e9; f < 6e9; f += 1e8) {
      expect(magnitude(reflection(patchImpedance({ ...patch, seriesOhm: 40 }, f), 50))).toBeLessThan(1);
    }
  });
});
