import { usageFailure } from './failure.ts';
import { visible } from './terminal.ts';

export interface WantedQuantity {
  /** Units that may be written, and what each is in the unit that is given back. */
  readonly units: Readonly<Record<string, number>>;
  readonly example: string;
  /** Least value that is allowed. */
  readonly least?: number;
}

const NUMBER_AND_UNIT = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*([A-Za-z]+)\s*$/;

/** The value of an option as a number; undefined when it is not given. Throws a usage Failure for anything else. */
export function quantityOption(
  values: ReadonlyMap<string, string>,
  name: string,
  wanted: WantedQuantity,
): number | undefined {
  const text = values.get(name);
  if (text === undefined) return undefined;
  const value = quantityOf(text, wanted);
  if (value !== undefined) return value;
  throw usageFailure(`--${name} ${visible(text)} cannot be understood; write it like ${wanted.example}`);
}

/** A text such as `1.25 ns`; undefined for what is none, or less than allowed. */
export function quantityOf(
  text: string,
  { units, least = Number.NEGATIVE_INFINITY }: WantedQuantity,
): number | undefined {
  const [, number, unit] = NUMBER_AND_UNIT.exec(text) ?? [];
  const factor = unit === undefined || !Object.hasOwn(units, unit) ? undefined : units[unit];
  const value = factor === undefined ? Number.NaN : Number(number) * factor;
  return Number.isFinite(value) && value >= least ? value : undefined;
}
