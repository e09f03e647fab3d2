import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { besselJ } from './bessel.ts';
import {
  circularPatchDirectivity,
  circularPatchEdgeResistance,
  circularPatchRadius,
  circularPatchResonance,
  circularProbeFromCentre,
  effectiveRadius,
} from './circular-patch.ts';

describe('round patch', () => {
  it('finds the radius back from its resonance', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5e-3, max: 60e-3, noNaN: true }),
        fc.double({ min: 0.02, max: 0.3, noNaN: true }),
        fc.double({ min: 1, max: 10, noNaN: true }),
        (radiusM, ratio, permittivity) => {
          const rest = { heightM: radiusM * ratio, permittivity };
          const f = circularPatchResonance({ radiusM, ...rest }).value;
          expect(circularPatchRadius(f, rest).value / radiusM).toBeCloseTo(1, 9);
        },
      ),
      { seed: 5 },
    );
  });

  it('has directivity 3 when very small', () => {
    expect(circularPatchDirectivity(1e9, 1e-4).value).toBeCloseTo(10 * Math.log10(3), 4);
  });

  it('lowers its edge resistance with loss', () => {
    const patch = { freqHz: 2.45e9, radiusM: 17e-3, heightM: 1.6e-3, permittivity: 4.3, conductivity: 58e6 };
    const clean = circularPatchEdgeResistance({ ...patch, lossTangent: 0 }).value;
    const lossy = circularPatchEdgeResistance({ ...patch, lossTangent: 0.02 }).value;
    expect(lossy).toBeLessThan(0.6 * clean);
    expect(lossy).toBeGreaterThan(0.2 * clean);
  });

  it('puts the probe where J1 squared has fallen to the wanted share', () => {
    const effectiveRadiusM = effectiveRadius({ radiusM: 30e-3, heightM: 5e-3, permittivity: 1 });
    const r = circularProbeFromCentre({ wantedOhm: 50, edgeOhm: 200, effectiveRadiusM }).value;
    const share = (besselJ(1, (1.8411838 * r) / effectiveRadiusM) / besselJ(1, 1.8411838)) ** 2;
    expect(share).toBeCloseTo(0.25, 6);
    expect(circularProbeFromCentre({ wantedOhm: 200, edgeOhm: 200, effectiveRadiusM }).value).toBeCloseTo(
      effectiveRadiusM,
      9,
    );
  });

  it('states a larger error over air', () => {
    const air = circularPatchResonance({ radiusM: 30e-3, heightM: 5e-3, permittivity: 1 });
    expect(air.error.size).toBe(0.04);
    expect(circularPatchResonance({ radiusM: 30e-3, heightM: 9e-3, permittivity: 1 }).inRange).toBe(false);
  });
});
