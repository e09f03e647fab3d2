import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { legalPower, RADIO_RULES } from '../limits/legal-power.ts';
import { edgeLoss } from './edge-loss.ts';
import { exposureDistanceM } from './exposure.ts';
import { freeSpaceLossDb } from './free-space.ts';
import { earthBulgeM, fresnelRadiusM } from './fresnel-zone.ts';
import { knifeEdgeLossDb } from './knife-edge.ts';
import { fadePercent } from './multipath-fading.ts';
import { rainAttenuationDbPerKm } from './rain.ts';
import { nearestPeakHeightM, surfacePermittivity, surfaceReflection, twoRayExcessLossDb } from './two-ray.ts';

// Laws that hold for any path.

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const freq = between(1e9, 30e9);
const metres = between(10, 40e3);

describe('a path', () => {
  it('loses 6.02 dB for each doubling of the distance', () => {
    fc.assert(
      fc.property(metres, freq, (d, f) => {
        expect(freeSpaceLossDb(2 * d, f) - freeSpaceLossDb(d, f)).toBeCloseTo(20 * Math.log10(2), 9);
      }),
    );
  });
  it('has its widest Fresnel zone and its highest bulge in the middle, and both from either end alike', () => {
    fc.assert(
      fc.property(metres, between(0.01, 0.49), freq, (d, share, f) => {
        const [a, b] = [share * d, (1 - share) * d];
        expect(fresnelRadiusM(a, b, f)).toBeLessThan(fresnelRadiusM(d / 2, d / 2, f));
        expect(earthBulgeM(a, b)).toBeLessThan(earthBulgeM(d / 2, d / 2));
        expect(fresnelRadiusM(a, b, f)).toBeCloseTo(fresnelRadiusM(b, a, f), 6);
      }),
    );
  });
  it('is the sum of both ways to any point on the ellipsoid: half a wavelength longer', () => {
    // The radius is the approximation for thin ellipsoids: exact to (r/d)^2.
    const [d, f] = [5000, 5e9];
    const r = fresnelRadiusM(2000, 3000, f);
    expect(Math.hypot(2000, r) + Math.hypot(3000, r) - d).toBeCloseTo(299_792_458 / f / 2, 4);
  });
});

describe('edges', () => {
  it('cost more the higher they are', () => {
    fc.assert(
      fc.property(between(-3, 6), between(0, 2), (v, more) => {
        expect(knifeEdgeLossDb(v + more)).toBeGreaterThanOrEqual(knifeEdgeLossDb(v));
      }),
    );
  });
  it('cost the same from either end', () => {
    const place = fc.tuple(fc.integer({ min: 100, max: 4900 }), between(-20, 60));
    const places = fc.uniqueArray(place, { maxLength: 6, selector: ([atM]) => atM });
    const seen = new Set<string>();
    fc.assert(
      fc.property(places, between(1, 40), between(1, 40), (some, h1, h2) => {
        const inside = [...some].sort(([a], [b]) => a - b).map(([atM, heightM]) => ({ atM, heightM }));
        const points = [{ atM: 0, heightM: 0 }, ...inside, { atM: 5000, heightM: 0 }];
        const turned = points.map(({ atM, heightM }) => ({ atM: 5000 - atM, heightM })).reverse();
        const path = { freqHz: 5.8e9, earthRadiusM: 8.5e6, field: 'vertical' } as const;
        const there = edgeLoss({ ...path, nearM: h1, farM: h2, points });
        const back = edgeLoss({ ...path, nearM: h2, farM: h1, points: turned });
        seen.add(there.method);
        expect(there.method).toBe(back.method);
        expect(there.lossDb).toBeCloseTo(back.lossDb, 6);
        expect(there.lossDb).toBeGreaterThanOrEqual(0);
      }),
    );
    expect([...seen].sort()).toEqual(['clear', 'single edge', 'terrain', 'two edges']);
  });
});

it('two rays never add to more than 6.02 dB, and the height asked for adds best', () => {
  fc.assert(
    fc.property(between(100, 5000), between(2, 30), between(2, 30), between(2e9, 8e9), (d, h1, h2, f) => {
      const path = { distanceM: d, nearHeightM: h1, farHeightM: h2, freqHz: f };
      const water = surfaceReflection(surfacePermittivity('water', f), Math.atan((h1 + h2) / d), 'vertical');
      expect(twoRayExcessLossDb(path, water)).toBeGreaterThan(-6.03);
      // The height is to first order in height over distance.
      if (h1 + h2 > d / 100) return;
      const peak = nearestPeakHeightM(path);
      expect(twoRayExcessLossDb({ ...path, farHeightM: peak }, { re: -1, im: 0 })).toBeLessThan(-5.8);
    }),
  );
});

it('deeper fades are rarer, whatever the path', () => {
  fc.assert(
    fc.property(between(0.001, 200), between(0, 60), between(0.1, 20), (p0, fade, more) => {
      expect(fadePercent(p0, fade + more)).toBeLessThanOrEqual(fadePercent(p0, fade) + 1e-9);
    }),
  );
});

it('heavier rain costs more', () => {
  fc.assert(
    fc.property(freq, between(1, 100), between(0.1, 50), (f, rate, more) => {
      expect(rainAttenuationDbPerKm(f, rate + more, 'vertical')).toBeGreaterThan(
        rainAttenuationDbPerKm(f, rate, 'vertical'),
      );
    }),
  );
});

describe('limits', () => {
  const emission = fc.record({
    gainDbi: between(-5, 35),
    cableDb: between(0, 6),
    widthHz: fc.constantFrom(20e6, 40e6, 80e6, 160e6),
    controlsPower: fc.boolean(),
  });
  it('more gain never allows more conducted power, and power control never less', () => {
    fc.assert(
      fc.property(fc.constantFrom(...RADIO_RULES), emission, between(0, 10), (rule, one, more) => {
        const legal = legalPower(rule, one);
        if (legal === undefined) return;
        const higher = legalPower(rule, { ...one, gainDbi: one.gainDbi + more });
        expect(higher?.conductedDbm ?? 99).toBeLessThanOrEqual(legal.conductedDbm + 1e-9);
        const controlled = legalPower(rule, { ...one, controlsPower: true });
        expect(controlled?.conductedDbm ?? -99).toBeGreaterThanOrEqual(legal.conductedDbm - 1e-9);
      }),
    );
  });
  it('four times the power keeps people twice as far away', () => {
    expect(exposureDistanceM(4, 10) / exposureDistanceM(1, 10)).toBeCloseTo(2, 12);
  });
});

it('what cannot be is refused by name', () => {
  expect(() => freeSpaceLossDb(0, 5e9)).toThrow(/distanceM must be a finite number above 0, not 0/);
  expect(() => freeSpaceLossDb(-640, 5e9)).toThrow(/distanceM/);
  expect(() => fresnelRadiusM(0, 0, 5e9)).toThrow(/lengthM/);
  expect(() => rainAttenuationDbPerKm(0.5e9, 10, 'vertical')).toThrow(/freqHz must be from/);
  expect(() => knifeEdgeLossDb(Number.NaN)).toThrow(/parameter/);
});
