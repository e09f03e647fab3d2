/*
 * Power that does not pass a joint because both sides reflect. Reflections are magnitudes of voltage coefficients, 0 to below 1.
 */

function requireReflection(name: string, size: number): void {
  if (!(size >= 0 && size < 1)) throw new RangeError(`${name} must be 0 to below 1, not ${size}.`);
}

/** How far the level at a joint can be from that with matched ends, dB, when the phases of both reflections are unknown. */
export interface MismatchBounds {
  /** Highest, above 0: the reflections add up in favour. */
  readonly upDb: number;
  /** Lowest, below 0. */
  readonly downDb: number;
}

/**
 * Bounds of the factor 1/|1 - G1 G2|² by magnitudes alone: 20 log10(1/(1 -+ |G1||G2|)) (mismatch uncertainty as in Pozar, Microwave
 * Engineering, section 2.6 on generator and load mismatch; memory).
 */
export function mismatchBounds(first: number, second: number): MismatchBounds {
  requireReflection('first', first);
  requireReflection('second', second);
  const product = first * second;
  return { upDb: -20 * Math.log10(1 - product) + 0, downDb: -20 * Math.log10(1 + product) + 0 };
}

/** The larger of both bounds, dB. */
export const mismatchErrorDb = (first: number, second: number): number => mismatchBounds(first, second).upDb;
