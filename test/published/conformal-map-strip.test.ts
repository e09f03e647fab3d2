/**
 * A strip without thickness over a plane in air. Reference: the exact conformal map with elliptic integrals, which agrees
 * with an independent spectral-domain solution to seven digits (`computed`, exact).
 */
import { airStripLineImpedance, airStripWidth } from '@sheetwave/rf';
import { expect, it } from 'vitest';

it.each([
  [0.05, 304.304],
  [0.1, 262.758],
  [0.5, 166.7],
  [1, 126.424],
  [3, 69.78],
  [4, 57.719],
  [5, 49.366],
  [10, 29.021],
  [15, 20.698],
  [20, 16.125],
])('%d heights wide', (ratio, z0) => {
  const found = airStripLineImpedance({ widthM: ratio * 2e-3, heightM: 2e-3, thicknessM: 0 });
  expect(Math.abs(found.value / z0 - 1)).toBeLessThan(1e-4);
  expect(found.inRange).toBe(ratio >= 0.1);
});

it.each([
  [35.355, 7.8035],
  [50, 4.91169],
  [70.711, 2.93795],
  [75, 2.67339],
  [100, 1.61718],
  [120, 1.12073],
  [150, 0.66435],
])('%d ohm', (z0Ohm, ratio) => {
  const width = airStripWidth({ z0Ohm, heightM: 1e-3, thicknessM: 0 });
  expect(Math.abs(width.value / (ratio * 1e-3) - 1)).toBeLessThan(2e-4);
});

it('widens with thickness', () => {
  // Computed by an independent script: 5 x 2 mm, 0.5 mm thick.
  expect(airStripLineImpedance({ widthM: 5e-3, heightM: 2e-3, thicknessM: 0.5e-3 }).value).toBeCloseTo(72.85, 2);
});
