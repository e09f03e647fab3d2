import { requireNotNegative, requirePositive } from '../require.ts';

/** Boltzmann's constant, J/K: exact by definition (SI Brochure, 9th edition). */
const BOLTZMANN = 1.380649e-23;
/** Reference temperature of noise figures, K (IEEE; ITU-R P.372). */
const REFERENCE_KELVIN = 290;

/** Noise power at the input of a receiver, dBm: k T B at 290 K plus its noise figure. */
export function noiseDbm(bandwidthHz: number, noiseFigureDb = 0): number {
  requirePositive({ bandwidthHz });
  requireNotNegative({ noiseFigureDb });
  return 10 * Math.log10(BOLTZMANN * REFERENCE_KELVIN * bandwidthHz * 1000) + noiseFigureDb;
}
