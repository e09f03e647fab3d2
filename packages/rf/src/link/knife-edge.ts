import { wavelength } from '../constants.ts';
import { requireFinite, requirePositive } from '../require.ts';

/** A thin opaque edge across the path. */
export interface Edge {
  /** From the near end, m. */
  readonly atM: number;
  /** Of its top, in the same frame as the ends' heights; the bulge of the earth already added. */
  readonly heightM: number;
}

/** Below this parameter an edge costs nothing (ITU-R P.526-15, below equation 31). */
export const CLEAR_PARAMETER = -0.78;

/**
 * Fresnel-Kirchhoff parameter of an edge that rises h above the line between two points d1 and d2 away (negative: below):
 * h sqrt(2 (d1 + d2) / (lambda d1 d2)) (ITU-R P.526-15, equation 26).
 */
export function knifeEdgeParameter(aboveM: number, toNearM: number, toFarM: number, freqHz: number): number {
  requireFinite({ aboveM });
  requirePositive({ toNearM, toFarM, freqHz });
  return aboveM * Math.sqrt((2 * (toNearM + toFarM)) / (wavelength(freqHz) * toNearM * toFarM));
}

/** Loss at a single knife edge, dB: 6.9 + 20 log10(sqrt((v - 0.1)^2 + 1) + v - 0.1) above v = -0.78, else 0 (ITU-R P.526-15, equation 31). */
export function knifeEdgeLossDb(parameter: number): number {
  requireFinite({ parameter });
  if (parameter <= CLEAR_PARAMETER) return 0;
  const shifted = parameter - 0.1;
  return Math.max(0, 6.9 + 20 * Math.log10(Math.sqrt(shifted * shifted + 1) + shifted));
}
