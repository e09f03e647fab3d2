import { add, type Complex, complex, divide, magnitude, subtract } from './complex.ts';
import { requireBetween, requirePositive } from './require.ts';

/** Reflection coefficient (Z - Z0)/(Z + Z0) against a real reference impedance, ohm. */
export function reflection(impedance: Complex, referenceOhm: number): Complex {
  requirePositive({ referenceOhm });
  const z0 = complex(referenceOhm);
  return divide(subtract(impedance, z0), add(impedance, z0));
}

/** Impedance (ohm) of a reflection coefficient. */
export function impedanceOf(gamma: Complex, referenceOhm: number): Complex {
  requirePositive({ referenceOhm });
  const ratio = divide(add(complex(1), gamma), subtract(complex(1), gamma));
  return complex(ratio.re * referenceOhm, ratio.im * referenceOhm);
}

function checkMagnitude(size: number): void {
  requireBetween('magnitude', size, { low: 0, high: 1, inclusive: true });
}

/** Standing wave ratio of a reflection of this magnitude, 0 to 1; infinite at 1. */
export function vswr(size: number): number {
  checkMagnitude(size);
  return (1 + size) / (1 - size);
}

/** Magnitude of the reflection at this VSWR, 1 or above. */
export function magnitudeOfVswr(ratio: number): number {
  requireBetween('ratio', ratio, { low: 1, high: Number.POSITIVE_INFINITY, inclusive: true });
  return ratio === Number.POSITIVE_INFINITY ? 1 : (ratio - 1) / (ratio + 1);
}

/** Return loss in dB, 0 or above, infinite for no reflection. */
export function returnLoss(size: number): number {
  checkMagnitude(size);
  return size === 0 ? Number.POSITIVE_INFINITY : -20 * Math.log10(size) + 0;
}

/** Power that a reflection keeps out, dB: -10 log10(1 - magnitude^2). */
export function mismatchLoss(size: number): number {
  checkMagnitude(size);
  return -10 * Math.log10(1 - size * size) + 0;
}

/** VSWR of an impedance against a reference. For a passive impedance (resistance not below 0). */
export const vswrOf = (impedance: Complex, referenceOhm: number): number =>
  vswr(Math.min(1, magnitude(reflection(impedance, referenceOhm))));
