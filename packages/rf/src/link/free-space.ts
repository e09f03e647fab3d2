import { wavelength } from '../constants.ts';
import { requirePositive } from '../require.ts';

/**
 * Basic transmission loss in free space, dB, between isotropic antennas: 20 log10(4 pi d / lambda) (ITU-R P.525-4, equation 4; Friis 1946).
 * Distance in m, frequency in Hz, both above 0; holds beyond the near fields of both antennas.
 */
export function freeSpaceLossDb(distanceM: number, freqHz: number): number {
  requirePositive({ distanceM, freqHz });
  return 20 * Math.log10((4 * Math.PI * distanceM) / wavelength(freqHz));
}
