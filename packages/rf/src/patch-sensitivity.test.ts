import { describe, expect, it } from 'vitest';
import { SPEED_OF_LIGHT } from './constants.ts';
import { endExtensionKirschning } from './end-extension.ts';
import { overAir, patchWave, resonanceHz } from './patch-resonance.ts';
import { asMegahertzPerTenthMillimetre, patchSensitivity, postDetuning } from './patch-sensitivity.ts';
import { slopeAt } from './solve.ts';

const patch = overAir({ lengthM: 23e-3, widthM: 25e-3, gapM: 3e-3, sheetM: 0.5e-3 });

/** f = c/2Le, dLe/dh = 2 (g - u g'(u)) + the slope of (t/2 pi) ln(1 + 4 e h/t), by hand. */
function analyticPerHeight(): number {
  const { lengthM, widthM, heightM: h, sheetM: t } = patch;
  const g = (u: number) => endExtensionKirschning({ widthRatio: u, permittivity: 1, effectivePermittivity: 1 });
  const u = widthM / h;
  const end = g(u) - u * slopeAt(g, u, 1e-4);
  const sheet = (2 * Math.E) / (Math.PI * (1 + (4 * Math.E * h) / t));
  const le = lengthM + 2 * patchWave(patch).extensionM;
  return (-SPEED_OF_LIGHT / (2 * le * le)) * 2 * (end + sheet);
}

describe('patch sensitivity', () => {
  it('is -f over the effective length, along the length', () => {
    const le = patch.lengthM + 2 * patchWave(patch).extensionM;
    expect(patchSensitivity(patch).perLength / (-resonanceHz(patch) / le)).toBeCloseTo(1, 8);
  });

  it('is the derivative taken by hand, along the gap', () => {
    expect(patchSensitivity(patch).perHeight / analyticPerHeight()).toBeCloseTo(1, 7);
  });

  it('obeys the scaling of lengths: the slopes times the sizes add up to -f', () => {
    const { perLength, perWidth, perHeight, perSheet } = patchSensitivity(patch);
    const sum =
      perLength * patch.lengthM + perWidth * patch.widthM + perHeight * patch.heightM + perSheet * patch.sheetM;
    expect(sum / -resonanceHz(patch)).toBeCloseTo(1, 8);
  });

  it('predicts a small change of permittivity, over air and over a laminate', () => {
    for (const permittivity of [1, 4.3]) {
      const here = { ...patch, permittivity };
      const step = 1e-3;
      const moved = resonanceHz({ ...here, permittivity: permittivity + step }) - resonanceHz(here);
      expect(moved / (patchSensitivity(here).perPermittivity * step)).toBeCloseTo(1, 2);
    }
  });

  it('has no slope along a sheet without thickness', () => {
    expect(patchSensitivity({ ...patch, sheetM: 0 }).perSheet).toBe(0);
  });

  it('reads as MHz for 0.1 mm', () => {
    expect(asMegahertzPerTenthMillimetre(-2e11)).toBeCloseTo(-20, 12);
  });
});

describe('posts under the patch', () => {
  const size = { lengthM: 40e-3, widthM: 50e-3 };
  const post = { permittivity: 3, areaM2: 20e-6 };

  it('take nothing on the centre line and (er - 1) A/LW at the edge', () => {
    expect(Math.abs(postDetuning(size, [{ ...post, offsetM: 0 }]).value)).toBe(0);
    expect(postDetuning(size, [{ ...post, offsetM: 20e-3 }]).value).toBeCloseTo(-2 * (20e-6 / (40e-3 * 50e-3)), 12);
  });

  it('add up, and refuse a post beside the patch', () => {
    const one = postDetuning(size, [{ ...post, offsetM: 10e-3 }]).value;
    expect(
      postDetuning(size, [
        { ...post, offsetM: 10e-3 },
        { ...post, offsetM: -10e-3 },
      ]).value,
    ).toBeCloseTo(2 * one, 14);
    expect(() => postDetuning(size, [{ ...post, offsetM: 21e-3 }])).toThrow(/offsetM/);
  });
});
