import { requireNotNegative, requirePermittivity, requirePositive } from './require.ts';

/** An open end of a strip: `widthRatio` is strip width over height, both permittivities are relative. */
export interface OpenEnd {
  readonly widthRatio: number;
  readonly permittivity: number;
  readonly effectivePermittivity: number;
}

function check({ widthRatio, permittivity, effectivePermittivity }: OpenEnd): void {
  requirePositive({ widthRatio });
  requirePermittivity({ permittivity, effectivePermittivity });
}

/**
 * End extension over height, after Kirschning, Jansen & Koster, Electronics Letters 17 (1981) 123-125. Claimed 2.5 % for
 * width ratios 0.01 to 100 and permittivities up to 128. Within 1 % in frequency for patches over air.
 */
export function endExtensionKirschning(end: OpenEnd): number {
  check(end);
  const { widthRatio: u, permittivity: er, effectivePermittivity: ee } = end;
  const xi1 =
    (((0.434907 * (ee ** 0.81 + 0.26)) / (ee ** 0.81 - 0.189)) * (u ** 0.8544 + 0.236)) / (u ** 0.8544 + 0.87);
  const xi2 = 1 + u ** 0.371 / (2.358 * er + 1);
  const xi3 = 1 + (0.5274 * Math.atan(0.084 * u ** (1.9413 / xi2))) / ee ** 0.9236;
  const xi4 = 1 + 0.0377 * Math.atan(0.067 * u ** 1.456) * (6 - 5 * Math.exp(0.036 * (1 - er)));
  const xi5 = 1 - 0.218 * Math.exp(-7.5 * u);
  return (xi1 * xi3 * xi5) / xi4;
}

/**
 * End extension over height, after Hammerstad (1975), as in Balanis, Antenna Theory, eq. 14-2. The handbook form, kept for
 * its worked examples. Over air it is 2 to 4 % high in frequency: use `endExtensionKirschning` there.
 */
export function endExtensionHammerstad(end: Omit<OpenEnd, 'permittivity'>): number {
  check({ ...end, permittivity: end.effectivePermittivity });
  const { widthRatio: u, effectivePermittivity: ee } = end;
  return (0.412 * (ee + 0.3) * (u + 0.264)) / ((ee - 0.258) * (u + 0.8));
}

/**
 * What the thickness of a sheet adds to each radiating edge, m: half the widening of a strip of that thickness over air,
 * (t/2 pi) ln(1 + 4 e h/t), h to the underside. Hammerstad & Jensen (1980) with coth = 1, for a length above 2 h.
 * 0 for a sheet without thickness.
 */
export function sheetThicknessExtension(gapM: number, sheetM: number): number {
  requirePositive({ gapM });
  requireNotNegative({ sheetM });
  return sheetM === 0 ? 0 : (sheetM / (2 * Math.PI)) * Math.log(1 + (4 * Math.E * gapM) / sheetM);
}
