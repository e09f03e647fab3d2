/** Numbers of a report as people read them. Units stand beside them. */

/** Fixed decimals and a true minus sign; infinity as a word. Throws RangeError for what is not a number. */
export function fixed(value: number, decimals: number): string {
  if (Number.isNaN(value)) throw new RangeError('NaN cannot be shown.');
  if (!Number.isFinite(value)) return value > 0 ? 'infinite' : 'none';
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '\u2212');
}

export const ghz = (hz: number): string => `${fixed(hz / 1e9, 3)} GHz`;
export const mhz = (hz: number): string => `${fixed(hz / 1e6, 0)} MHz`;
export const percent = (part: number, decimals = 1): string => `${fixed(part * 100, decimals)} %`;

/** A VSWR; above 20 it only says that nearly all comes back. */
export const ratio = (vswr: number): string => (vswr > 20 ? 'above 20' : fixed(vswr, 2));

/** `48 + j3 ohm`; a reactance that rounds to nothing is left out. */
export function ohms({ re, im }: { readonly re: number; readonly im: number }): string {
  if (Math.abs(im) < 0.5) return `${fixed(re, 0)} ohm`;
  return `${fixed(re, 0)} ${im < 0 ? '\u2212' : '+'} j${fixed(Math.abs(im), 0)} ohm`;
}
