/**
 * A number as a builder reads it: at most `digits` decimals, no trailing zeros, always a decimal point.
 * Throws on NaN and infinities: they have no business in a pack.
 */
export function numberText(value: number, digits = 2): string {
  if (!Number.isFinite(value)) throw new RangeError(`not a finite number: ${value}`);
  const text = value.toFixed(digits);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}
