/** One reason why a gain may be off. */
export interface ErrorPart {
  readonly name: ErrorName;
  /** Half width of what it does to the gain, dB. */
  readonly db: number;
  /** A sentence: where the number is from. */
  readonly source: string;
}

export type ErrorName = 'level' | 'known-gain' | 'sent' | 'mismatch' | 'ripple' | 'alignment' | 'distance' | 'cables';

export interface ErrorBudget {
  readonly parts: readonly ErrorPart[];
  /** Root of the sum of squares, dB. */
  readonly totalDb: number;
}

/** Parts that have nothing to do with one another, together. */
export function errorBudget(parts: readonly ErrorPart[]): ErrorBudget {
  for (const { name, db } of parts)
    if (!(db >= 0 && Number.isFinite(db))) throw new RangeError(`the part ${name} must be 0 dB or more, not ${db}.`);
  return { parts, totalDb: Math.hypot(...parts.map(({ db }) => db)) };
}
