/**
 * ITU-R P.526-15, sections 3 and 4, from memory: no worked example of it was at hand, so that each formula is held to the exact solution that it
 * stands for, computed here or by hand.
 */
import {
  bullingtonLossDb,
  doubleEdgeLossDb,
  edgeLoss,
  knifeEdgeLossDb,
  sphericalEarthLossDb,
  type TerrainPath,
  type TwoEdges,
  terrainLossDb,
} from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';

const LIGHT = 299_792_458;

describe('two edges, section 4.4', () => {
  const grazing = { firstAboveM: 0, secondAboveM: 0, freqHz: LIGHT * 10 };
  // The field behind two edges that just touch the line is the chance that two normal variables of correlation sqrt(ac / ((a + b)(b + c))) are
  // both positive, 1/4 + asin(r) / 2 pi (W. F. Sheppard 1899; equal distances give 1/3, J. H. Whitteker, Radio Sci. 25 (1990) 837; memory).
  it.each([
    [1000, 1000, 1000],
    [200, 50, 900],
    [3000, 1, 10],
    [10, 4000, 2000],
  ])('both at grazing, %d, %d and %d m apart: exact', (a, b, c) => {
    const r = Math.sqrt((a * c) / ((a + b) * (b + c)));
    const exact = -20 * Math.log10(1 / 4 + Math.asin(r) / (2 * Math.PI));
    const found = doubleEdgeLossDb({ toFirstM: a, betweenM: b, fromSecondM: c, ...grazing });
    // Two edges at 6.03 and 12 dB of the recommendation, where 12.04 are exact.
    expect(Math.abs(found - exact)).toBeLessThan(0.1);
  });
  it('deep in the shadow: the diffraction of each and how the wave spreads between them (J. B. Keller 1962), by hand', () => {
    // D = sqrt(lambda) / (2 pi theta) for small angles: D1 D2 sqrt((a + b + c) / (a b c)) of the free field.
    const path: TwoEdges = {
      toFirstM: 1000,
      betweenM: 500,
      fromSecondM: 2000,
      firstAboveM: 60,
      secondAboveM: 70,
      freqHz: LIGHT * 10,
    };
    const [first, second] = [60 / 1000 - 10 / 500, 70 / 2000 + 10 / 500];
    const free = (0.1 / (4 * Math.PI ** 2 * first * second)) * Math.sqrt(3500 / (1000 * 500 * 2000));
    expect(Math.abs(doubleEdgeLossDb(path) + 20 * Math.log10(free))).toBeLessThan(0.3);
  });
  it('one predominant: it alone, the other seen from its top, less the correction, by hand', () => {
    // Three equal steps of 1 km, 10 and 6 m, waves of 0.1 m. p = 10 sqrt(2 * 3000 / (0.1 * 1e3 * 2e3)) = 1.732, q = 0.6 p = 1.039; from the first top
    // the second rises 6 - 5 = 1 m: 1 sqrt(2 * 2000 / (0.1 * 1e6)) = 0.2. alpha = atan(sqrt(3)) = 60 degrees: (12 - 20 log 3) 0.6^3.464 = 0.418.
    const found = doubleEdgeLossDb({
      toFirstM: 1e3,
      betweenM: 1e3,
      fromSecondM: 1e3,
      firstAboveM: 10,
      secondAboveM: 6,
      freqHz: LIGHT * 10,
    });
    const correction = (12 - 20 * Math.log10(3)) * 0.6 ** (2 * Math.sqrt(3));
    expect(found).toBeCloseTo(knifeEdgeLossDb(Math.sqrt(3)) + knifeEdgeLossDb(0.2) - correction, 6);
  });
  // Two-fold Fresnel integral over both apertures, its paths turned by 45 degrees so that it dies away, by Simpson's rule.
  it.each([
    [3, 1],
    [4, 4],
    [6, -1],
    [2, 0.5],
  ])('edges %f and %f m into the path: within 2 dB of the exact integral', (h1, h2) => {
    const path = { toFirstM: 300, betweenM: 200, fromSecondM: 250, firstAboveM: h1, secondAboveM: h2, freqHz: 5.8e9 };
    expect(Math.abs(doubleEdgeLossDb(path) - exactTwoEdgesDb(path))).toBeLessThan(2);
  });
});

/**
 * Kirchhoff's integral behind two half planes, two-dimensional, over x from h1 up and y from h2 up: the quadratic form (pi / lambda)
 * (x^2 / a + (x - y)^2 / b + y^2 / c) less its value without edges. Both paths leave their edge at 45 degrees, where the integrand dies away.
 */
function exactTwoEdgesDb({
  toFirstM: a,
  betweenM: b,
  fromSecondM: c,
  firstAboveM,
  secondAboveM,
  freqHz,
}: TwoEdges): number {
  const k = (Math.PI * freqHz) / LIGHT;
  const reach =
    9 * Math.sqrt(LIGHT / freqHz / (1 / a + 1 / b + 1 / c)) + 2 * (Math.abs(firstAboveM) + Math.abs(secondAboveM));
  const steps = 900;
  const at = (n: number) => (reach * n) / steps;
  const weight = (n: number) => (n === 0 || n === steps ? 1 : n % 2 === 1 ? 4 : 2);
  const turn = Math.SQRT1_2;
  let [re, im] = [0, 0];
  for (let m = 0; m <= steps; m++) {
    const [xr, xi] = [firstAboveM + at(m) * turn, -at(m) * turn];
    for (let n = 0; n <= steps; n++) {
      const [yr, yi] = [secondAboveM + at(n) * turn, -at(n) * turn];
      const squared = (r: number, i: number): readonly [number, number] => [r * r - i * i, 2 * r * i];
      const [x2, d2, y2] = [squared(xr, xi), squared(xr - yr, xi - yi), squared(yr, yi)];
      const form = (part: 0 | 1) => k * (x2[part] / a + d2[part] / b + y2[part] / c);
      // exp(-j form), form complex.
      const size = Math.exp(form(1)) * weight(m) * weight(n);
      re += size * Math.cos(form(0));
      im -= size * Math.sin(form(0));
    }
  }
  const area = (reach / steps / 3) ** 2;
  // Without edges the integral is pi / sqrt(det) with det = k^2 (1/(ab) + 1/(bc) + 1/(ac)).
  const free = Math.PI / (k * Math.sqrt(1 / (a * b) + 1 / (b * c) + 1 / (a * c)));
  return -20 * Math.log10((Math.hypot(re, im) * area) / free);
}

describe('a smooth earth, section 3', () => {
  const path = { freqHz: 1e9, earthRadiusM: 8.5e6, field: 'horizontal' } as const;
  it('far beyond the horizon loses 20 log e * 2.33811 sin 60 degrees for each unit of X: the first zero of the Airy function (computed)', () => {
    const at = (distanceM: number) => sphericalEarthLossDb({ ...path, distanceM, nearAboveM: 20, farAboveM: 30 });
    const lambda = LIGHT / 1e9;
    const unit = (Math.PI / (lambda * 8.5e6 ** 2)) ** (1 / 3);
    const slope = 20 * Math.log10(Math.E) * 2.338107 * Math.sin(Math.PI / 3);
    const expected = slope * 100e3 * unit - 10 * Math.log10(2);
    expect(Math.abs(at(200e3) - at(100e3) - expected)).toBeLessThan(0.005 * expected);
  });
  it('costs nothing where the line of sight is high, and all of it comes in without a jump at the horizon', () => {
    const at = (distanceM: number) => sphericalEarthLossDb({ ...path, distanceM, nearAboveM: 20, farAboveM: 30 });
    const horizon = Math.sqrt(2 * 8.5e6) * (Math.sqrt(20) + Math.sqrt(30));
    expect(at(5e3)).toBe(0);
    expect(at(horizon * 1.0001)).toBeCloseTo(at(horizon * 0.9999), 1);
    // About 20 dB at the horizon, as the curves of the recommendation show (memory).
    expect(at(horizon)).toBeGreaterThan(15);
    expect(at(horizon)).toBeLessThan(25);
  });
  it('is the same from either end', () => {
    const one = { ...path, distanceM: 35e3, nearAboveM: 5, farAboveM: 60 };
    expect(sphericalEarthLossDb(one)).toBeCloseTo(sphericalEarthLossDb({ ...one, nearAboveM: 60, farAboveM: 5 }), 9);
  });
});

describe('terrain, section 4.5.2', () => {
  const flat = (lengthM: number, heightM = 0) =>
    Array.from({ length: 201 }, (_, i) => ({ atM: (lengthM * i) / 200, heightM }));
  it.each([20e3, 45e3, 90e3])(
    'a smooth sphere of %d m has the loss of the sphere, whatever its height above zero',
    (lengthM) => {
      const shared = { freqHz: 2.4e9, earthRadiusM: 8.5e6, field: 'vertical' } as const;
      const path: TerrainPath = { ...shared, nearM: 130, farM: 120, points: flat(lengthM, 100) };
      const sphere = sphericalEarthLossDb({ ...shared, distanceM: lengthM, nearAboveM: 30, farAboveM: 20 });
      expect(terrainLossDb(path)).toBeCloseTo(sphere, 6);
    },
  );
  it('puts one edge where the horizons cross, with the correction of 4.5.1, by hand', () => {
    const points = [
      [0, 0],
      [1e3, 10],
      [1.5e3, 0],
      [2e3, 10],
      [3e3, 0],
    ].map(([atM = 0, heightM = 0]) => ({ atM, heightM }));
    // Both horizons rise 10 m in 1 km and cross in the middle at 15 m: v = 15 sqrt(2 * 3000 / (0.1 * 1500^2)) = 2.4495.
    const path: TerrainPath = { nearM: 0, farM: 0, points, freqHz: LIGHT * 10, earthRadiusM: 1e15, field: 'vertical' };
    const single = knifeEdgeLossDb(15 * Math.sqrt(6000 / (0.1 * 1500 ** 2)));
    const expected = single + (1 - Math.exp(-single / 6)) * (10 + 0.02 * 3);
    expect(bullingtonLossDb(path)).toBeCloseTo(expected, 6);
  });
  it('takes the method by what is in the way', () => {
    const shared = { nearM: 10, farM: 10, freqHz: 5.8e9, earthRadiusM: 8.5e6, field: 'vertical' } as const;
    const raised = (...places: readonly number[]) =>
      flat(2000).map(({ atM }) => ({ atM, heightM: places.includes(atM) ? 14 : 0 }));
    const method = (...places: readonly number[]) => edgeLoss({ ...shared, points: raised(...places) }).method;
    expect([method(), method(1000), method(500, 1500), method(500, 1000, 1500)]).toEqual([
      'clear',
      'single edge',
      'two edges',
      'terrain',
    ]);
  });
});
