import { circularPatchResonance, patchResonance, SPEED_OF_LIGHT } from '@sheetwave/rf';
import { type Layer, type PublishedRow, totalHeightMm } from './published-row.ts';

const M = 1e-3;

/** First zeros of the slopes of J1 to J4 (Abramowitz & Stegun, Handbook of Mathematical Functions, table 9.5). */
const DISC_ROOTS: readonly number[] = [1.84118, 3.05424, 4.20119, 5.31755];

/** Permittivity of layers in series, as a condenser of wide plates sees them. */
export function seriesPermittivity(layers: readonly Layer[]): number {
  const total = layers.reduce((sum, { heightMm }) => sum + heightMm, 0);
  return total / layers.reduce((sum, { heightMm, permittivity }) => sum + heightMm / permittivity, 0);
}

/**
 * Resonance by the closed forms of the rf package, Hz. Rectangles: Kirschning, Jansen & Koster 1981 with Hammerstad & Jensen
 * 1980; discs: Shen et al. 1977, higher modes by the ratio of the Bessel roots; triangles: the cavity of the side with its
 * fringe, 2c/(3 a_e sqrt(er)) sqrt(m^2 + mn + n^2), where a_e is that of the disc of equal area (J. S. Dahele and K. F. Lee,
 * IEEE Trans. AP-35 (1987) 100; from memory). Several layers count as one of their series permittivity.
 */
export function closedFormHz(row: Pick<PublishedRow, 'outline' | 'layers' | 'mode'>): number {
  const { outline, layers, mode } = row;
  const heightM = totalHeightMm(row) * M;
  const permittivity = seriesPermittivity(layers);
  switch (outline.kind) {
    case 'rectangle': {
      const [lengthM, widthM] = [outline.lengthMm * M, outline.widthMm * M];
      return patchResonance({ lengthM, widthM, heightM, sheetM: 0, permittivity }).value;
    }
    case 'disc':
      return discHz({ radiusM: outline.radiusMm * M, heightM, permittivity }) * discRatio(mode[0]);
    case 'triangle': {
      const sideM = outline.sideMm * M;
      const radiusM = sideM * Math.sqrt(Math.sqrt(3) / 4 / Math.PI);
      const bare = ((DISC_ROOTS[0] as number) * SPEED_OF_LIGHT) / (2 * Math.PI * radiusM * Math.sqrt(permittivity));
      const longer = bare / discHz({ radiusM, heightM, permittivity });
      const [m, n] = mode;
      return ((2 * SPEED_OF_LIGHT) / (3 * sideM * longer * Math.sqrt(permittivity))) * Math.sqrt(m * m + m * n + n * n);
    }
  }
}

const discHz = (disc: { radiusM: number; heightM: number; permittivity: number }) => circularPatchResonance(disc).value;

const discRatio = (m: number) => (DISC_ROOTS[m - 1] ?? Number.NaN) / (DISC_ROOTS[0] as number);
