import { FREE_SPACE_IMPEDANCE } from './constants.ts';
import { type Estimate, estimate, outside, relativeError } from './estimate.ts';
import { requireNotNegative, requirePermittivity, requirePositive } from './require.ts';

/** A round rod over a plane. m; `centreM` is the height of its axis. */
export interface RodOverPlane {
  readonly diameterM: number;
  readonly centreM: number;
  /** Relative, of all that surrounds it: 1 for air. */
  readonly permittivity: number;
}

const LEAVES_OUT = ['Supports, bends and the ends of the rod.', 'Side walls and a cover nearer than a few heights.'];

const EXACT = relativeError(
  0.005,
  'The formula is exact for an endless straight rod; half a per cent is left for supports.',
);

const impedanceFactor = (permittivity: number): number =>
  FREE_SPACE_IMPEDANCE / (2 * Math.PI * Math.sqrt(permittivity));

function checkRod({ diameterM, centreM, permittivity }: RodOverPlane): void {
  requirePositive({ diameterM, centreM });
  requirePermittivity({ permittivity });
  if (centreM <= diameterM / 2) {
    throw new RangeError(`centreM must be above half the diameter (${diameterM / 2}), not ${centreM}.`);
  }
}

/** Impedance (ohm): (eta0/2 pi sqrt(er)) acosh(2 s/d), exact by the method of images (Pozar, Microwave Engineering, and any text on electrostatics). Throws when the rod touches the plane. */
export function rodImpedance(rod: RodOverPlane): Estimate {
  checkRod(rod);
  return estimate({
    value: impedanceFactor(rod.permittivity) * Math.acosh((2 * rod.centreM) / rod.diameterM),
    unit: 'ohm',
    error: EXACT,
    leavesOut: LEAVES_OUT,
    limits: [outside('The axis height over the radius', (2 * rod.centreM) / rod.diameterM, 1.05)],
  });
}

/** Axis height over radius for an impedance: cosh(Z0/factor), the inverse of `rodImpedance`. */
export function rodHeightOverRadius(z0Ohm: number, permittivity = 1): number {
  requirePositive({ z0Ohm });
  requirePermittivity({ permittivity });
  return Math.cosh(z0Ohm / impedanceFactor(permittivity));
}

/** Height (m) of the axis of a rod of this diameter for an impedance. */
export function rodCentreHeight(z0Ohm: number, { diameterM, permittivity }: Omit<RodOverPlane, 'centreM'>): number {
  requirePositive({ diameterM });
  return (diameterM / 2) * rodHeightOverRadius(z0Ohm, permittivity);
}

/** Diameter (m) of a rod at this height of its axis for an impedance. */
export function rodDiameter(z0Ohm: number, { centreM, permittivity }: Omit<RodOverPlane, 'diameterM'>): number {
  requirePositive({ centreM });
  return (2 * centreM) / rodHeightOverRadius(z0Ohm, permittivity);
}

/**
 * Attenuation (Np/m) by the metal of rod and plane: Wheeler's rule of incremental inductance (Proc. IRE 30 (1942) 412-424) on
 * the exact impedance, R = (Rs/pi d)(1 + 2s/d)/sqrt((2s/d)^2 - 1), alpha = R/2 Z0. `surfaceOhm` per square for both metals.
 */
export function rodAttenuation(rod: RodOverPlane, surfaceOhm: number): number {
  requireNotNegative({ surfaceOhm });
  const ratio = (2 * rod.centreM) / rod.diameterM;
  const z0 = rodImpedance(rod).value;
  const resistance = ((surfaceOhm / (Math.PI * rod.diameterM)) * (1 + ratio)) / Math.sqrt(ratio * ratio - 1);
  return resistance / (2 * z0);
}
