/** What every public function does at its door: non-physical arguments throw and say what is allowed. */

type Numbers = Readonly<Record<string, number>>;

function refuse(name: string, allowed: string, value: number): never {
  throw new RangeError(`${name} must be ${allowed}, not ${value}.`);
}

/** Throws RangeError unless every named number is finite and above 0. */
export function requirePositive(numbers: Numbers): void {
  for (const [name, value] of Object.entries(numbers)) {
    if (!(Number.isFinite(value) && value > 0)) refuse(name, 'a finite number above 0', value);
  }
}

/** Throws RangeError unless every named number is finite and not below 0. */
export function requireNotNegative(numbers: Numbers): void {
  for (const [name, value] of Object.entries(numbers)) {
    if (!(Number.isFinite(value) && value >= 0)) refuse(name, 'a finite number, 0 or above', value);
  }
}

/** Throws RangeError unless every named number is finite. */
export function requireFinite(numbers: Numbers): void {
  for (const [name, value] of Object.entries(numbers)) {
    if (!Number.isFinite(value)) refuse(name, 'a finite number', value);
  }
}

/** Throws RangeError unless every named number is finite and at least 1: a relative permittivity. */
export function requirePermittivity(numbers: Numbers): void {
  for (const [name, value] of Object.entries(numbers)) {
    if (!(Number.isFinite(value) && value >= 1)) refuse(name, 'a finite relative permittivity of 1 or above', value);
  }
}

/** Throws RangeError unless every named number is a whole number of at least 1. */
export function requireCount(numbers: Numbers): void {
  for (const [name, value] of Object.entries(numbers)) {
    if (!(Number.isInteger(value) && value >= 1)) refuse(name, 'a whole number, 1 or above', value);
  }
}

/** Throws RangeError unless low < value < high (or low <= value <= high with `inclusive`). */
export function requireBetween(name: string, value: number, limits: Limits): void {
  const { low, high, inclusive = false } = limits;
  const inside = inclusive ? value >= low && value <= high : value > low && value < high;
  if (!inside) refuse(name, inclusive ? `from ${low} to ${high}` : `above ${low} and below ${high}`, value);
}

export interface Limits {
  readonly low: number;
  readonly high: number;
  readonly inclusive?: boolean;
}
