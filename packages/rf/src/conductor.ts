import { MAGNETIC_CONSTANT } from './constants.ts';
import { requireNotNegative, requirePositive } from './require.ts';

/** Skin depth, m, of a non-magnetic metal of this conductivity (S/m): 1/sqrt(pi f mu0 sigma) (Pozar, Microwave Engineering, 4th ed., eq. 1.60). */
export function skinDepth(freqHz: number, conductivity: number): number {
  requirePositive({ freqHz, conductivity });
  return 1 / Math.sqrt(Math.PI * freqHz * MAGNETIC_CONSTANT * conductivity);
}

/** Surface resistance, ohm per square, of a smooth thick non-magnetic metal: sqrt(pi f mu0 / sigma) (Pozar, ibid., eq. 1.125). */
export function surfaceResistance(freqHz: number, conductivity: number): number {
  return 1 / (conductivity * skinDepth(freqHz, conductivity));
}

/**
 * Factor, 1 to 2, by which a rough surface raises the loss: 1 + (2/pi) atan(1.4 (roughness/skin depth)^2), roughness as
 * root mean square in m. Hammerstad & Jensen, IEEE MTT-S 1980, 407-409, a fit to S. P. Morgan, J. Appl. Phys. 20 (1949) 352.
 * Made for etched copper foil; it saturates at 2, while very rough foils can lose more.
 */
export function roughnessFactor(roughnessM: number, skinDepthM: number): number {
  requireNotNegative({ roughnessM });
  requirePositive({ skinDepthM });
  return 1 + (2 / Math.PI) * Math.atan(1.4 * (roughnessM / skinDepthM) ** 2);
}
