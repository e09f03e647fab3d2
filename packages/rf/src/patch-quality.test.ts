import { describe, expect, it } from 'vitest';
import { bandwidthFromQuality, type LossyPatch, lossShares, patchQuality } from './patch-quality.ts';

const air: LossyPatch = {
  freqHz: 5.5e9,
  lengthM: 23e-3,
  widthM: 25e-3,
  heightM: 3e-3,
  permittivity: 1,
  lossTangent: 0,
  surfaceOhm: 0,
};

describe('patch quality', () => {
  it('has no surface wave over air, and radiates all it accepts without loss', () => {
    expect(lossShares(air)).toMatchObject({ surfaceWave: 0, dielectric: 0, conductor: 0 });
    expect(patchQuality(air).efficiency.value).toBe(1);
  });

  it('loses efficiency and quality to each loss', () => {
    const clean = patchQuality(air);
    for (const lossy of [
      { ...air, lossTangent: 0.01 },
      { ...air, surfaceOhm: 0.05 },
    ]) {
      expect(patchQuality(lossy).efficiency.value).toBeLessThan(1);
      expect(patchQuality(lossy).quality.value).toBeLessThan(clean.quality.value);
    }
  });

  it('says when the width is far from the length', () => {
    expect(patchQuality({ ...air, widthM: 10e-3 }).quality.inRange).toBe(false);
  });

  it('has 1/(sqrt 2 Q) of bandwidth at VSWR 2, and none is asked at VSWR 1', () => {
    expect(bandwidthFromQuality(10, 2)).toBeCloseTo(1 / (10 * Math.SQRT2), 12);
    expect(() => bandwidthFromQuality(10, 1)).toThrow(/vswr/);
  });
});
