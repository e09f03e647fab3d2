/** A length for people: at most `decimals` places, trailing zeros dropped, a true minus sign. */
export function plain(valueMm: number, decimals = 2): string {
  if (!Number.isFinite(valueMm)) throw new Error(`${valueMm} cannot be written: not a finite number`);
  const text = valueMm.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short.replace('-', '\u2212');
}
