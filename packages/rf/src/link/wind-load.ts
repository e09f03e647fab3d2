import { requirePositive } from '../require.ts';

/** Density of air at 15 °C and sea level, kg/m³ (ISO 2533, standard atmosphere). */
export const AIR_DENSITY = 1.225;

/**
 * Drag coefficient of a flat plate square to the wind: 1.17 for a square in an even stream (Hoerner, Fluid-Dynamic Drag, 1965, ch. 3;
 * memory); structural handbooks take 1.2 to 1.4 for panels. 1.4 is on the safe side.
 */
export const PLATE_DRAG = 1.4;

/** Pressure of the wind, Pa: half rho v². Speed in m/s, with gusts. */
export function windPressurePa(speedMPerS: number): number {
  requirePositive({ speedMPerS });
  return 0.5 * AIR_DENSITY * speedMPerS ** 2;
}

/** Force of the wind on a flat plate square to it, N: q Cd A. Holes, ice and the pole are not in it. */
export function windForceN(speedMPerS: number, areaM2: number, drag: number = PLATE_DRAG): number {
  requirePositive({ areaM2, drag });
  return windPressurePa(speedMPerS) * drag * areaM2;
}
