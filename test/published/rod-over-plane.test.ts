/** A round rod over a plane: exact, (eta0/2 pi) acosh(s/a); values of an independent script (`computed`). */
import { rodHeightOverRadius, rodImpedance } from '@sheetwave/rf';
import { expect, it } from 'vitest';

it.each([
  [1.2, 37.316],
  [1.5, 57.706],
  [3, 105.692],
  [5, 137.451],
  [20, 221.142],
])('axis %d radii up', (ratio, z0) => {
  expect(rodImpedance({ diameterM: 2e-3, centreM: ratio * 1e-3, permittivity: 1 }).value).toBeCloseTo(z0, 2);
});

it.each([
  [50, 1.36833],
  [70.711, 1.77984],
  [75, 1.88981],
  [100, 2.74463],
  [141.42, 5.3356],
  [200, 14.066],
])('%d ohm', (z0, ratio) => {
  expect(Math.abs(rodHeightOverRadius(z0) / ratio - 1)).toBeLessThan(5e-5);
});
