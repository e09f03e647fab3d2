/**
 * Microstrip with thickness and dispersion: M. Kirschning & R. H. Jansen, Electronics Letters 18 (1982) 272-273, and
 * R. H. Jansen & M. Kirschning, AEU 37 (1983) 108-112. Values `computed` by an independent script in GHz mm; and one worked
 * example of Pozar, Microwave Engineering, 4th ed. (`confirmed` second-hand).
 */
import { stripLine } from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';

interface Row {
  readonly size: readonly [widthMm: number, heightMm: number, thicknessUm: number];
  readonly permittivity: number;
  readonly gigahertz: number;
  /** Z0(0), ee(0), ee(f), Z0(f); undefined where the source gives none. */
  readonly found: readonly [number | undefined, number | undefined, number, number];
}

const ROWS: readonly Row[] = [
  { size: [3, 1.6, 35], permittivity: 4.3, gigahertz: 2.45, found: [50.684, 3.2337, 3.2833, 50.709] },
  { size: [3, 1.6, 35], permittivity: 4.3, gigahertz: 5.5, found: [undefined, undefined, 3.3745, 51.305] },
  { size: [3, 1.6, 0], permittivity: 4.3, gigahertz: 2.45, found: [51.142, 3.2576, 3.306, 51.167] },
  { size: [2.4, 0.787, 17], permittivity: 2.2, gigahertz: 5.5, found: [49.989, 1.8747, 1.8887, 50.027] },
  { size: [0.6, 0.635, 0], permittivity: 9.8, gigahertz: 10, found: [50.664, 6.5484, 6.8883, 51.109] },
  { size: [10, 2, 0], permittivity: 1, gigahertz: 2.45, found: [49.368, 1, 1, 49.368] },
];

describe('microstrip over frequency', () => {
  it.each(ROWS)('$size on $permittivity at $gigahertz GHz', ({ size, permittivity, gigahertz, found }) => {
    const [w, h, t] = size;
    const section = { widthM: w * 1e-3, heightM: h * 1e-3, thicknessM: t * 1e-6, permittivity };
    const low = stripLine(section, 0);
    const high = stripLine(section, gigahertz * 1e9);
    if (found[0] !== undefined) expect(low.z0Ohm).toBeCloseTo(found[0], 2);
    if (found[1] !== undefined) expect(low.effectivePermittivity).toBeCloseTo(found[1], 3);
    expect(high.effectivePermittivity).toBeCloseTo(found[2], 3);
    expect(high.z0Ohm).toBeCloseTo(found[3], 2);
  });

  it('gives the effective permittivity of the handbook at 10 GHz', () => {
    // Permittivity 10, height 0.65 mm, width 2.00 mm: 7.53 at low frequency, 8.12 at 10 GHz (Pozar; from another dispersion formula).
    const section = { widthM: 2e-3, heightM: 0.65e-3, thicknessM: 0, permittivity: 10 };
    expect(Math.abs(stripLine(section, 0).effectivePermittivity / 7.53 - 1)).toBeLessThan(0.01);
    expect(Math.abs(stripLine(section, 10e9).effectivePermittivity / 8.12 - 1)).toBeLessThan(0.015);
  });
});
