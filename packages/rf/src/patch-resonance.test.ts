import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  efficientWidth,
  lengthAirPatch,
  overAir,
  patchLength,
  patchResonance,
  patchWave,
  resonanceAirPatch,
  resonanceHz,
} from './patch-resonance.ts';

const mm = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true }).map((x) => x * 1e-3);
const anyPatch = fc.record({
  lengthM: mm(15, 70),
  widthM: mm(15, 90),
  heightM: mm(0.5, 8),
  sheetM: mm(0, 1.5),
  permittivity: fc.double({ min: 1, max: 10, noNaN: true }),
});
const seeded = { seed: 7 } as const;

describe('patch resonance', () => {
  it('is undone by the length for that frequency', () => {
    fc.assert(
      fc.property(anyPatch, (patch) => {
        const back = patchLength(resonanceHz(patch), patch).value;
        expect(Math.abs(back / patch.lengthM - 1)).toBeLessThan(1e-9);
      }),
      seeded,
    );
  });

  it('depends on shape alone: twice the size, half the frequency', () => {
    fc.assert(
      fc.property(anyPatch, (p) => {
        const twice = {
          ...p,
          lengthM: 2 * p.lengthM,
          widthM: 2 * p.widthM,
          heightM: 2 * p.heightM,
          sheetM: 2 * p.sheetM,
        };
        expect(resonanceHz(twice) / resonanceHz(p)).toBeCloseTo(0.5, 9);
      }),
      seeded,
    );
  });

  it('falls with length and permittivity, and over air with sheet thickness', () => {
    fc.assert(
      fc.property(anyPatch, (p) => {
        const f = resonanceHz(p);
        expect(resonanceHz({ ...p, lengthM: p.lengthM * 1.01 })).toBeLessThan(f);
        const air = { ...p, permittivity: 1 };
        expect(resonanceHz({ ...air, sheetM: p.sheetM + 1e-4 })).toBeLessThan(resonanceHz(air));
        expect(resonanceHz({ ...p, permittivity: p.permittivity * 1.01 })).toBeLessThan(f);
      }),
      seeded,
    );
  });

  it('is continuous where a dielectric becomes air', () => {
    const patch = { lengthM: 23e-3, widthM: 25e-3, heightM: 3e-3, sheetM: 0.5e-3, permittivity: 1 };
    expect(resonanceHz({ ...patch, permittivity: 1 + 1e-9 }) / resonanceHz(patch)).toBeCloseTo(1, 7);
  });

  it('says which limit is passed and gives the value all the same', () => {
    const high = resonanceAirPatch({ lengthM: 23e-3, widthM: 25e-3, gapM: 9e-3, sheetM: 0 });
    expect(high.value).toBeGreaterThan(3e9);
    expect(high.inRange).toBe(false);
    expect(high.reasons.join(' ')).toMatch(/width over the height is 2\.78.*height in wavelengths/);
  });

  it('names the argument that cannot be', () => {
    const patch = { lengthM: 23e-3, widthM: 25e-3, gapM: 3e-3, sheetM: 0 };
    expect(() => resonanceAirPatch({ ...patch, lengthM: 0 })).toThrow(/lengthM/);
    expect(() => resonanceAirPatch({ ...patch, gapM: Number.NaN })).toThrow(/heightM/);
    expect(() => resonanceAirPatch({ ...patch, sheetM: -1e-4 })).toThrow(/sheetM/);
    expect(() => patchResonance({ ...overAir(patch), permittivity: 0.9 })).toThrow(/permittivity/);
  });

  it('refuses a frequency that leaves no length', () => {
    const air = { widthM: 25e-3, gapM: 10e-3, sheetM: 0 };
    expect(() => lengthAirPatch(20e9, air)).toThrow(/freqHz must be below/);
    const { extensionM } = patchWave({ widthM: 25e-3, heightM: 10e-3, sheetM: 0, permittivity: 1 });
    expect(extensionM).toBeGreaterThan(299792458 / 20e9 / 4);
  });

  it('states a larger share of the cut length than of the frequency', () => {
    const frequency = resonanceAirPatch({ lengthM: 23e-3, widthM: 25e-3, gapM: 3e-3, sheetM: 0 });
    const length = lengthAirPatch(frequency.value, { widthM: 25e-3, gapM: 3e-3, sheetM: 0 });
    expect(length.error.size).toBeGreaterThan(frequency.error.size);
  });

  it('suggests half a wavelength of width over air', () => {
    expect(efficientWidth(2.99792458e9, 1)).toBeCloseTo(0.05, 12);
  });
});
