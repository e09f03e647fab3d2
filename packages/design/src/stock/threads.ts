import type { Certainty } from './types.ts';

export const threads = ['M2', 'M2.5', 'M3', 'M4', 'M5', 'M6'] as const;
export type Thread = (typeof threads)[number];
export const fits = ['fine', 'medium', 'coarse'] as const;
export type Fit = (typeof fits)[number];

/** ISO metric coarse thread with the holes that go with it, mm. */
export interface ThreadRow {
  readonly pitchMm: number;
  /** ISO 273 clearance holes: fine (H12), medium (H13), coarse (H14). */
  readonly clearanceMm: Readonly<Record<Fit, number>>;
  readonly tapDrillMm: number;
  readonly source: string;
  readonly certainty: Certainty;
}

type Holes = readonly [fine: number, medium: number, coarse: number];

function row(pitchMm: number, [fine, medium, coarse]: Holes, tapDrillMm: number): ThreadRow {
  return Object.freeze({
    pitchMm,
    clearanceMm: Object.freeze({ fine, medium, coarse }),
    tapDrillMm,
    source: 'ISO 261 coarse pitch; ISO 273:1979 clearance holes; ISO 2306 tap drills',
    certainty: 'confirmed',
  });
}

export const threadTable: Readonly<Record<Thread, ThreadRow>> = Object.freeze({
  M2: row(0.4, [2.2, 2.4, 2.6], 1.6),
  'M2.5': row(0.45, [2.7, 2.9, 3.1], 2.05),
  M3: row(0.5, [3.2, 3.4, 3.6], 2.5),
  M4: row(0.7, [4.3, 4.5, 4.8], 3.3),
  M5: row(0.8, [5.3, 5.5, 5.8], 4.2),
  // Of M6 only the medium hole was seen in print.
  M6: { ...row(1, [6.4, 6.6, 7], 5), certainty: 'memory' },
});

function isThread(text: string): text is Thread {
  return (threads as readonly string[]).includes(text);
}

/** The thread's row, M2 to M6. Throws a RangeError for another thread. */
export function threadRow(thread: string): ThreadRow {
  if (!isThread(thread)) throw new RangeError(`no thread ${thread}: known are ${threads.join(', ')}`);
  return threadTable[thread];
}

/** Clearance hole in mm (ISO 273:1979) for M2 to M6. Throws a RangeError for another thread. */
export function clearanceHoleMm(thread: string, fit: Fit): number {
  return threadRow(thread).clearanceMm[fit];
}

/** Tap drill in mm (ISO 2306: nominal diameter less pitch, 2.05 for M2.5). Throws a RangeError for another thread. */
export function tapDrillMm(thread: string): number {
  return threadRow(thread).tapDrillMm;
}
