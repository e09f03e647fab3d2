/** A number as the files carry it: at most 4 decimals (0.1 µm at 1:1), no exponent, no `-0`. Throws when not finite. */
export function fixed(value: number): string {
  if (!Number.isFinite(value)) throw new Error(`${value} cannot be drawn: not a finite number`);
  const text = value.toFixed(4).replace(/\.?0+$/, '');
  return text === '-0' || text === '' ? '0' : text;
}
