import { plain } from '@sheetwave/drawings';
import { type Effect, stepOf } from './effects.ts';

/** Shift as a share of the band beyond which a dimension matters, and below which it does not. */
const SHIFT = { matters: 0.25, nothing: 0.05 } as const;
/** Growth of the worst reflection in the band, dB, likewise. */
const GROWTH_DB = { matters: 1, nothing: 0.2 } as const;

export type Verdict = 'matters' | 'matters a little' | 'does not matter';

/** What an error as large as the workshop may make does to the antenna. */
export interface Held {
  readonly mhz: number;
  readonly db: number | undefined;
  readonly verdict: Verdict;
}

/** The most that the effect may be, its own error taken in. */
export function heldBy({ dimension, mhz, errorMhz, db }: Effect, bandMhz: number): Held {
  const steps = dimension.tolerance.plusMinus / stepOf(dimension);
  const [offMhz, offDb] = [(Math.abs(mhz) + errorMhz) * steps, db === undefined ? undefined : Math.abs(db) * steps];
  const share = offMhz / bandMhz;
  const beyond = (limit: 'matters' | 'nothing'): boolean => share >= SHIFT[limit] || (offDb ?? 0) >= GROWTH_DB[limit];
  const verdict = beyond('matters') ? 'matters' : beyond('nothing') ? 'matters a little' : 'does not matter';
  return { mhz: offMhz, db: offDb, verdict };
}

/** `± 0.3 mm`; of a permittivity in its own unit. */
export const toleranceText = ({ dimension: { tolerance, unit } }: Effect): string =>
  `± ${plain(tolerance.plusMinus)}${unit === '' ? '' : ` ${unit}`}`;

export const sizeText = ({ dimension: { nominal, unit } }: Effect): string =>
  `${plain(nominal, 3)}${unit === '' ? '' : ` ${unit}`}`;

/** `0.1 mm`, `1 %`. */
export const stepText = ({ dimension: { unit } }: Effect): string => (unit === '' ? '1 %' : '0.1 mm');

export const shiftText = ({ mhz, errorMhz }: Effect): string => `${plain(mhz, 1)} ± ${plain(errorMhz, 1)} MHz`;

export const growthText = (db: number | undefined): string => (db === undefined ? '' : `${plain(db, 2)} dB`);

/** `45 MHz, 0.5 dB`. */
export const heldText = ({ mhz, db }: Held): string =>
  `${plain(mhz, mhz < 10 ? 1 : 0)} MHz${db === undefined ? '' : `, ${plain(db, 1)} dB`}`;
