/**
 * Losses, bandwidth and efficiency: D. R. Jackson & N. G. Alexopoulos, IEEE Trans. AP-39 (1991) 407-410.
 * Values `computed` by an independent script: copper 58 MS/m on laminates, brass 16 MS/m over air.
 */
import {
  type LossyPatch,
  lossShares,
  patchBandwidth,
  patchQuality,
  slotEdgeResistance,
  surfaceResistance,
} from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';

interface Row {
  readonly gigahertz: number;
  readonly mm: readonly [height: number, width: number, length: number];
  readonly permittivity: number;
  readonly lossTangent: number;
  readonly siemens: number;
  /** Radiation Q with the surface wave, Q, bandwidth at VSWR 2, efficiency, edge resistance here and from the slots. */
  readonly found: readonly [number, number, number, number, number, number];
}

const ROWS: readonly Row[] = [
  {
    gigahertz: 2.45,
    mm: [5, 55, 54.292],
    permittivity: 1,
    lossTangent: 0,
    siemens: 16e6,
    found: [15.03, 14.91, 0.0474, 0.992, 288.6, 264.9],
  },
  {
    gigahertz: 5.5,
    mm: [3, 25, 23.177],
    permittivity: 1,
    lossTangent: 0,
    siemens: 16e6,
    found: [10.39, 10.32, 0.0685, 0.994, 252.7, 243.1],
  },
  {
    gigahertz: 2.45,
    mm: [1.6, 37.6, 29.126],
    permittivity: 4.3,
    lossTangent: 0.02,
    siemens: 58e6,
    found: [60.4, 26.74, 0.0264, 0.399, 129.9, 317.1],
  },
  {
    gigahertz: 5.5,
    mm: [0.787, 21.5, 17.965],
    permittivity: 2.2,
    lossTangent: 0.0009,
    siemens: 58e6,
    found: [43.2, 39.7, 0.0178, 0.871, 229.8, 245],
  },
];

const patchOf = ({ gigahertz, mm: [h, w, l], permittivity, lossTangent, siemens }: Row): LossyPatch => ({
  freqHz: gigahertz * 1e9,
  heightM: h * 1e-3,
  widthM: w * 1e-3,
  lengthM: l * 1e-3,
  permittivity,
  lossTangent,
  surfaceOhm: surfaceResistance(gigahertz * 1e9, siemens),
});

describe.each(ROWS)('$mm on $permittivity at $gigahertz GHz', (row) => {
  const patch = patchOf(row);
  const [radiation, q, bandwidth, efficiency, edge, slots] = row.found;
  const near = (found: number, wanted: number) => expect(Math.abs(found / wanted - 1)).toBeLessThan(0.003);

  it('has the computed quality factors, bandwidth, efficiency and resistances', () => {
    const quality = patchQuality(patch);
    const shares = lossShares(patch);
    near(1 / (shares.spaceWave + shares.surfaceWave), radiation);
    near(quality.quality.value, q);
    near(patchBandwidth(patch, 2).value, bandwidth);
    near(quality.efficiency.value, efficiency);
    near(quality.edgeResistance.value, edge);
    near(slotEdgeResistance(patch).value, slots);
  });
});
