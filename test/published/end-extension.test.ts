/**
 * Open-end extension of a strip. Values computed by an independent script from the published coefficients of
 * Hammerstad (1975) and of Kirschning, Jansen & Koster, Electronics Letters 17 (1981) 123-125 (coefficients confirmed
 * in several printed copies, values `computed`).
 */
import { endExtensionHammerstad, endExtensionKirschning } from '@sheetwave/rf';
import { expect, it } from 'vitest';

it.each([
  [11, 1, 1, 0.689, 0.8836],
  [8.333, 1, 1, 0.6795, 0.84],
  [1, 1, 1, 0.5069, 0.4651],
  [3, 1, 1, 0.62, 0.6449],
  [23.5, 4.3, 3.9956, 0.4631, 0.5411],
  [27.3, 2.2, 2.1029, 0.5264, 0.6852],
])('width %d heights, permittivity %d', (widthRatio, permittivity, effectivePermittivity, hammerstad, kirschning) => {
  const end = { widthRatio, permittivity, effectivePermittivity };
  expect(endExtensionHammerstad(end)).toBeCloseTo(hammerstad, 4);
  expect(endExtensionKirschning(end)).toBeCloseTo(kirschning, 4);
});
