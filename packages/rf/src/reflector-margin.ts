import { wavelength } from './constants.ts';
import { requirePositive } from './require.ts';

export interface ReflectorNeed {
  /** Low edge of the band, Hz. */
  readonly lowHz: number;
  /** From the reflector to the driven patch's underside, m. */
  readonly gapM: number;
}

export interface ReflectorMargin {
  /** How far the reflector must reach beyond the patches on each side, m. */
  readonly marginM: number;
  /** The rule that asks for more: a quarter wavelength, or six times the gap. */
  readonly decidedBy: 'quarter-wave' | 'six-gaps';
}

/**
 * Least reach of the reflector beyond the patches: the larger of a quarter wavelength at the low edge of the band (for the
 * pattern: front-to-back of about 12 to 15 dB; half a wavelength gives about 20 dB) and six times the gap under the
 * driven patch (for the field of the patch itself: the patch and 6 h on each side, Balanis, Antenna Theory, ch. 14, for
 * microstrip patches). Both are common practice, from memory; neither was measured for this project's panels.
 */
export function minimumReflectorMargin({ lowHz, gapM }: ReflectorNeed): ReflectorMargin {
  requirePositive({ lowHz, gapM });
  const quarter = wavelength(lowHz) / 4;
  const sixGaps = 6 * gapM;
  return quarter >= sixGaps
    ? { marginM: quarter, decidedBy: 'quarter-wave' }
    : { marginM: sixGaps, decidedBy: 'six-gaps' };
}
