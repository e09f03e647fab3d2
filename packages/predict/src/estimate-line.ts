import { type Estimate, errorInUnits } from '@sheetwave/rf';

/** One number of the estimate in the units of the workshop. */
export interface EstimateLine {
  /** What it is, for people. */
  readonly what: string;
  /** Unrounded, in `unit`. */
  readonly value: number;
  readonly unit: string;
  /** Half the width of the band in which the truth is expected, in the same unit. */
  readonly error: number;
  /** Decimals that make sense beside the error. */
  readonly digits: number;
  /** What the error rests on. */
  readonly origin: string;
  /** Why the formula is outside its range here; empty when it is inside. */
  readonly doubts: readonly string[];
}

interface Wording {
  readonly what: string;
  readonly unit: string;
  /** From SI (or from a ratio) to `unit`. */
  readonly factor?: number;
  readonly digits?: number;
  readonly doubts?: readonly string[];
}

const OUT_OF_RANGE = 'Outside its range the stated error does not hold.';

/** An estimate of rf as a line, scaled to the wanted unit. */
export function lineOf(estimate: Estimate, { what, unit, factor = 1, digits = 1, doubts = [] }: Wording): EstimateLine {
  return {
    what,
    value: estimate.value * factor,
    unit,
    error: errorInUnits(estimate) * Math.abs(factor),
    digits,
    origin: estimate.error.origin,
    doubts: [...doubts, ...estimate.reasons, ...(estimate.inRange ? [] : [OUT_OF_RANGE])],
  };
}
