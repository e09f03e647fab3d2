import { ELECTRIC_CONSTANT, FREE_SPACE_IMPEDANCE, SPEED_OF_LIGHT } from './constants.ts';
import type { LineConstants } from './line.ts';
import { dielectricAttenuation } from './line.ts';
import { requireNotNegative, requirePermittivity, requirePositive } from './require.ts';

/** A round coaxial line. m. */
export interface CoaxSection {
  /** Diameter of the inner conductor. */
  readonly innerM: number;
  /** Inside diameter of the outer conductor. */
  readonly outerM: number;
  readonly permittivity: number;
}

function checkCoax({ innerM, outerM, permittivity }: CoaxSection): void {
  requirePositive({ innerM, outerM });
  requirePermittivity({ permittivity });
  if (outerM <= innerM) throw new RangeError(`outerM must be above innerM (${innerM}), not ${outerM}.`);
}

/** Impedance (ohm): (eta0/2 pi sqrt(er)) ln(D/d), exact (Pozar, Microwave Engineering, 4th ed., table 2.1). */
export function coaxImpedance(coax: CoaxSection): number {
  checkCoax(coax);
  return (FREE_SPACE_IMPEDANCE / (2 * Math.PI * Math.sqrt(coax.permittivity))) * Math.log(coax.outerM / coax.innerM);
}

/** Inner diameter (m) for an impedance inside a given tube. */
export function coaxInnerDiameter(z0Ohm: number, { outerM, permittivity }: Omit<CoaxSection, 'innerM'>): number {
  requirePositive({ z0Ohm, outerM });
  requirePermittivity({ permittivity });
  return outerM * Math.exp((-2 * Math.PI * Math.sqrt(permittivity) * z0Ohm) / FREE_SPACE_IMPEDANCE);
}

/** Velocity over that of light: 1/sqrt(er). */
export function velocityFactor(permittivity: number): number {
  requirePermittivity({ permittivity });
  return 1 / Math.sqrt(permittivity);
}

/** Capacitance, F/m: 2 pi eps0 er/ln(D/d) (Pozar, ibid., table 2.1). */
export function coaxCapacitance(coax: CoaxSection): number {
  checkCoax(coax);
  return (2 * Math.PI * ELECTRIC_CONSTANT * coax.permittivity) / Math.log(coax.outerM / coax.innerM);
}

/** Cut-off (Hz) of the next mode, TE11: about c/(pi sqrt(er) (D + d)/2) (Pozar, ibid., sec. 3.5), up to 5 % below the exact one for usual cables. */
export function coaxCutoff(coax: CoaxSection): number {
  checkCoax(coax);
  return (2 * SPEED_OF_LIGHT) / (Math.PI * Math.sqrt(coax.permittivity) * (coax.outerM + coax.innerM));
}

/** What a coax loses in: surface resistances per square of both conductors, loss tangent of the filling. */
export interface CoaxLoss {
  readonly innerSurfaceOhm: number;
  readonly outerSurfaceOhm: number;
  readonly lossTangent: number;
}

/** Constants of the line: alpha_c = (Rs_i/a + Rs_o/b)/(2 eta ln(b/a)), alpha_d = pi f sqrt(er) tan(delta)/c (Pozar, ibid., example 2.6). Smooth solid conductors: a braid loses more. */
export function coaxLine(coax: CoaxSection, freqHz: number, loss: CoaxLoss): LineConstants {
  const { innerSurfaceOhm, outerSurfaceOhm, lossTangent } = loss;
  requireNotNegative({ innerSurfaceOhm, outerSurfaceOhm, lossTangent });
  const z0Ohm = coaxImpedance(coax);
  const { innerM, outerM, permittivity } = coax;
  const resistance = innerSurfaceOhm / (Math.PI * innerM) + outerSurfaceOhm / (Math.PI * outerM);
  const filling = { permittivity, effectivePermittivity: permittivity, lossTangent };
  return {
    z0Ohm,
    effectivePermittivity: permittivity,
    attenuation: resistance / (2 * z0Ohm) + dielectricAttenuation(freqHz, filling),
  };
}
