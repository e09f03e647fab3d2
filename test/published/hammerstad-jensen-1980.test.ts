/**
 * Microstrip without thickness at low frequency: E. Hammerstad & O. Jensen, IEEE MTT-S Digest (1980) 407-409.
 * The reference is an independent spectral-domain solution, converged to eight digits (`computed`); the authors claim
 * 0.2 % for the permittivity. The last column is the formula itself in an independent script (`computed`).
 */
import { stripLine, stripWidth } from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';

const ROWS: readonly (readonly [number, number, number, number, number, number])[] = [
  [2.2, 0.5, 126.647, 1.73254, 126.734, 1.73016],
  [2.2, 1, 94.908, 1.7744, 94.963, 1.77235],
  [2.2, 10, 20.438, 2.01619, 20.439, 2.01599],
  [2.55, 2, 61.773, 2.07713, 61.796, 2.07557],
  [3.38, 1, 79.576, 2.52403, 79.61, 2.52188],
  [4.3, 0.5, 96.363, 2.99261, 96.404, 2.99006],
  [4.3, 2, 49.1851, 3.27637, 49.1918, 3.27549],
  [4.3, 10, 14.9227, 3.78202, 14.9266, 3.78001],
  [10.2, 2, 32.947, 7.30196, 32.936, 7.30669],
];

describe('microstrip at low frequency', () => {
  it.each(ROWS)('permittivity %d, %d heights wide', (permittivity, ratio, z0, ee, z0Formula, eeFormula) => {
    const line = stripLine({ widthM: ratio * 1e-3, heightM: 1e-3, thicknessM: 0, permittivity }, 0);
    expect(Math.abs(line.z0Ohm / z0 - 1)).toBeLessThan(0.001);
    expect(Math.abs(line.effectivePermittivity / ee - 1)).toBeLessThan(0.002);
    expect(Math.abs(line.z0Ohm / z0Formula - 1)).toBeLessThan(2e-5);
    expect(Math.abs(line.effectivePermittivity / eeFormula - 1)).toBeLessThan(1e-5);
  });

  it.each([
    [2.2, 3.08008],
    [3.38, 2.31459],
    [4.3, 1.94656],
  ])('50 ohm on permittivity %d', (permittivity, ratio) => {
    const width = stripWidth({ z0Ohm: 50, freqHz: 0, heightM: 1e-3, thicknessM: 0, permittivity });
    expect(Math.abs(width.value / (ratio * 1e-3) - 1)).toBeLessThan(0.002);
  });
});
