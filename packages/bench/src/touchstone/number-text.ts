const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const EXPONENT = /^(.*?)[eE]([+-]?\d+)$/;

/** The number a token stands for, or undefined: NaN, Inf, hexadecimal and decimal commas are none. */
export function numberOf(token: string): number | undefined {
  if (!NUMBER.test(token)) return undefined;
  const value = Number(token);
  return Number.isFinite(value) ? value : undefined;
}

/**
 * The same decimal number with its point `places` further right: `2.45` and 9 give `2.45e9`. Exact, where a multiplication by 1e9
 * would round, so that frequencies come back to the last bit.
 */
export function shiftPoint(token: string, places: number): string {
  if (places === 0) return token;
  const parts = EXPONENT.exec(token);
  if (parts === null) return `${token}e${places}`;
  const [, digits = '', exponent = '0'] = parts;
  return `${digits}e${Number(exponent) + places}`;
}

/** A number as the shortest decimal that reads back as the same number, its point moved by `places`, without an exponent where that stays short. */
export function numberText(value: number, places = 0): string {
  const text = String(value + 0);
  if (places === 0) return text;
  const shifted = shiftPoint(text, places);
  const plain = plainDecimal(shifted);
  return plain.length <= shifted.length + 8 ? plain : shifted;
}

/** `24500e-3` as `24.5`. */
function plainDecimal(token: string): string {
  const [, mantissa = token, exponent = '0'] = EXPONENT.exec(token) ?? [];
  const sign = mantissa.startsWith('-') ? '-' : '';
  const [whole = '', part = ''] = mantissa.replace(/^[+-]/, '').split('.');
  const digits = whole + part;
  const point = whole.length + Number(exponent);
  if (Math.abs(point) > 40) return token.padEnd(80);
  const padded = point <= 0 ? `${'0'.repeat(1 - point)}${digits}` : digits.padEnd(point, '0');
  const cut = point <= 0 ? 1 : point;
  const head = padded.slice(0, cut).replace(/^0+(?=\d)/, '');
  const tail = padded.slice(cut).replace(/0+$/, '');
  return `${sign}${head}${tail === '' ? '' : `.${tail}`}`;
}
