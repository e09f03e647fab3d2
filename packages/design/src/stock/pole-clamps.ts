import type { Certainty } from './types.ts';

/** A U-bolt by the largest pole it goes around. */
export interface PoleClampRow {
  readonly poleUpToMm: number;
  readonly thread: 'M6' | 'M8';
  /** Between its two legs, centre to centre. */
  readonly spacingMm: number;
  /** Medium clearance hole of the thread (ISO 273). */
  readonly holeMm: number;
  /** Across flats of its nuts (ISO 4032). */
  readonly acrossMm: number;
  readonly source: string;
  readonly certainty: Certainty;
}

function row(thread: 'M6' | 'M8', poleUpToMm: number, spacingMm: number): PoleClampRow {
  const sizes = thread === 'M6' ? { holeMm: 6.6, acrossMm: 10 } : { holeMm: 9, acrossMm: 13 };
  return {
    poleUpToMm,
    thread,
    spacingMm,
    ...sizes,
    source: 'pole, the thread and 4 to 6 mm of room; trade sizes differ, measure the U-bolts you have',
    certainty: 'common practice',
  };
}

/** From small to large. There is no standard for them: measure the U-bolts and give `spacing` and `hole` where they differ. */
export const poleClamps: readonly PoleClampRow[] = Object.freeze([
  row('M6', 30, 40),
  row('M6', 42, 52),
  row('M8', 50, 62),
  row('M8', 60, 72),
]);

/** The smallest U-bolt that goes around the pole (diameter in mm, above 0); undefined for a pole above 60 mm. */
export function poleClampFor(poleMm: number): PoleClampRow | undefined {
  return poleClamps.find((each) => poleMm <= each.poleUpToMm);
}
