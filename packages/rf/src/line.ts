import { type Complex, complex } from './complex.ts';
import { DECIBELS_PER_NEPER, SPEED_OF_LIGHT } from './constants.ts';
import { type ExpectedError, relativeError } from './estimate.ts';
import { requireNotNegative, requirePermittivity, requirePositive } from './require.ts';

/** What a uniform line does to a wave at one frequency. */
export interface LineConstants {
  readonly z0Ohm: number;
  readonly effectivePermittivity: number;
  /** Np/m; 0 for a line without loss. */
  readonly attenuation: number;
}

/** How far a computed attenuation of a rod, strip or cable may be from the made one. */
export const ATTENUATION_ERROR: ExpectedError = relativeError(
  0.25,
  'Closed forms within 15 % of each other; plating, roughness and joints raise the loss (common practice, no measurement).',
);

/** Propagation constant alpha + j beta, 1/m, beta = 2 pi f sqrt(effective permittivity)/c. */
export function propagationConstant(line: Omit<LineConstants, 'z0Ohm'>, freqHz: number): Complex {
  const { effectivePermittivity, attenuation } = line;
  requirePositive({ freqHz });
  requirePermittivity({ effectivePermittivity });
  requireNotNegative({ attenuation });
  return complex(attenuation, (2 * Math.PI * freqHz * Math.sqrt(effectivePermittivity)) / SPEED_OF_LIGHT);
}

/** Wavelength on the line, m. */
export function guidedWavelength(freqHz: number, effectivePermittivity: number): number {
  requirePositive({ freqHz });
  requirePermittivity({ effectivePermittivity });
  return SPEED_OF_LIGHT / (freqHz * Math.sqrt(effectivePermittivity));
}

/** dB/m of an attenuation in Np/m. */
export const decibelsPerMetre = (attenuation: number): number => attenuation * DECIBELS_PER_NEPER;

/**
 * Attenuation (Np/m) by the dielectric of a line that is partly in air: (pi/lambda0) er (ee - 1) tan(delta)/(sqrt(ee) (er - 1))
 * (Pozar, Microwave Engineering, 4th ed., eq. 3.198). The line wholly in its dielectric is the limit ee = er.
 */
export function dielectricAttenuation(freqHz: number, filling: Filling): number {
  const { permittivity: er, effectivePermittivity: ee, lossTangent } = filling;
  requirePositive({ freqHz });
  requirePermittivity({ permittivity: er, effectivePermittivity: ee });
  requireNotNegative({ lossTangent });
  if (er === 1) return 0;
  const share = (er * (ee - 1)) / (ee * (er - 1));
  return ((Math.PI * freqHz) / SPEED_OF_LIGHT) * Math.sqrt(ee) * share * lossTangent;
}

export interface Filling {
  readonly permittivity: number;
  readonly effectivePermittivity: number;
  readonly lossTangent: number;
}
