/** How far the truth is expected from an estimate, and who says so. */
export interface ExpectedError {
  /** `relative`: a share of the value; `absolute`: in the value's own unit. */
  readonly kind: 'relative' | 'absolute';
  /** Half the width of the band, 0 or above: 0.01 is one hundredth either way. */
  readonly size: number;
  /** A sentence: what the size rests on. */
  readonly origin: string;
}

export type EstimateUnit = 'Hz' | 'm' | 'ohm' | 'S' | 'dB' | 'dBi' | 'Np/m' | 'rad' | 'ratio';

/** A number that a person will build by: with its error, its gaps and whether its formula holds here. */
export interface Estimate {
  readonly value: number;
  readonly unit: EstimateUnit;
  readonly error: ExpectedError;
  /** Plain sentences: what the formula does not know. */
  readonly leavesOut: readonly string[];
  /** False when an input lies outside the formula's stated validity; the value is then given all the same. */
  readonly inRange: boolean;
  /** Plain sentences, one for each limit that is passed; empty when `inRange`. */
  readonly reasons: readonly string[];
}

interface Parts extends Pick<Estimate, 'value' | 'unit' | 'error' | 'leavesOut'> {
  /** Reasons from `outside`; undefined for a limit that is kept. */
  readonly limits?: readonly (string | undefined)[];
}

/** Joins a value with its error and its limits. */
export function estimate({ value, unit, error, leavesOut, limits = [] }: Parts): Estimate {
  const reasons = limits.filter((reason) => reason !== undefined);
  return { value, unit, error, leavesOut, inRange: reasons.length === 0, reasons };
}

/** The reason why `value` lies outside a formula's validity, or undefined when it lies inside (ends included). */
export function outside(name: string, value: number, low: number, high = Number.POSITIVE_INFINITY): string | undefined {
  if (value >= low && value <= high) return undefined;
  const allowed = high === Number.POSITIVE_INFINITY ? `from ${low} up` : `from ${low} to ${high}`;
  return `${name} is ${Number(value.toPrecision(3))}; the formula holds ${allowed}.`;
}

export const relativeError = (size: number, origin: string): ExpectedError => ({ kind: 'relative', size, origin });

export const absoluteError = (size: number, origin: string): ExpectedError => ({ kind: 'absolute', size, origin });

/** Half the width of an estimate's error band in the value's own unit. */
export const errorInUnits = ({ value, error }: Pick<Estimate, 'value' | 'error'>): number =>
  error.kind === 'absolute' ? error.size : error.size * Math.abs(value);
