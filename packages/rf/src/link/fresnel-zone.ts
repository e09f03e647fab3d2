import { wavelength } from '../constants.ts';
import { requireNotNegative, requirePositive } from '../require.ts';

/** Mean radius of the earth, m (ITU-R P.310: 6371 km). */
export const EARTH_RADIUS = 6.371e6;

/** Effective earth radius factors: the median of a temperate climate (4/3, ITU-R P.310), and a low one exceeded 99.9 % of the worst month. */
export const MEDIAN_EARTH_FACTOR = 4 / 3;
/**
 * The low end of ITU-R P.530 figure 2 (exceeded 99.9 % of the worst month; continental temperate climate), which begins at 20 km with about
 * 0.6; shorter paths average less and differ more, so that value stands for them too (memory).
 */
export const LOW_EARTH_FACTOR = 0.6;

/**
 * Radius of the n-th Fresnel ellipsoid at a place between the ends, m: sqrt(n lambda d1 d2 / (d1 + d2)) (ITU-R P.526-15, equation 1).
 * Distances to the ends in m, 0 or above and not both 0.
 */
export function fresnelRadiusM(toNearM: number, toFarM: number, freqHz: number, zone = 1): number {
  requireNotNegative({ toNearM, toFarM });
  requirePositive({ freqHz, zone, lengthM: toNearM + toFarM });
  return Math.sqrt((zone * wavelength(freqHz) * toNearM * toFarM) / (toNearM + toFarM));
}

/** How far the curved earth rises above the chord between the ends, m: d1 d2 / (2 k R) (parabola of ITU-R P.530, section 2.2.2). */
export function earthBulgeM(toNearM: number, toFarM: number, earthFactor: number = MEDIAN_EARTH_FACTOR): number {
  requireNotNegative({ toNearM, toFarM });
  requirePositive({ earthFactor });
  return (toNearM * toFarM) / (2 * earthFactor * EARTH_RADIUS);
}
