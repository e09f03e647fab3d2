import { toDecibels, wavelength } from '../constants.ts';
import { requirePositive } from '../require.ts';

/** The most gain that a flat panel can have. */
export interface ApertureLimit {
  /** 4 pi A / lambda² of the reflector itself, dBi. */
  readonly evenDbi: number;
  /** The same with a quarter wavelength more on every side: what is refused lies above this. */
  readonly mostDbi: number;
}

/**
 * Gain of an evenly lit aperture, 4 pi A / lambda² (Balanis, Antenna Theory, 12-37): no flat antenna without superdirective currents passes
 * it. Fields reach beyond the edges of a small panel, so a quarter wavelength is allowed on every side (common practice, no source).
 */
export function apertureLimit(widthM: number, heightM: number, freqHz: number): ApertureLimit {
  requirePositive({ widthM, heightM, freqHz });
  const lambda = wavelength(freqHz);
  const gain = (areaM2: number) => toDecibels((4 * Math.PI * areaM2) / lambda ** 2);
  return { evenDbi: gain(widthM * heightM), mostDbi: gain((widthM + lambda / 2) * (heightM + lambda / 2)) };
}
