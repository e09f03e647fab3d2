/** `3.2 dB`. */
export const db = (value: number): string => `${tidy(value, 1)} dB`;

/** `+3.2 dB`, `−3.2 dB`. */
export const signedDb = (value: number): string => `${value < 0 ? '' : '+'}${tidy(value, 1)} dB`;

/** Metres below 5 km, kilometres above; more decimals for small ones. */
export function metres(value: number, digits = Math.abs(value) < 10 ? 1 : 0): string {
  return Math.abs(value) >= 5000 ? `${tidy(value / 1000, 2)} km` : `${tidy(value, digits)} m`;
}

/** Fixed decimals without a minus before zero. */
export function tidy(value: number, digits: number): string {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '\u2212');
}

export const bullet = (text: string): string => `  - ${text}`;

export const titled = (title: string, lines: readonly string[]): string => [`${title}:`, ...lines].join('\n');
