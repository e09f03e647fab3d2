import { type Design, dimensionsOf } from '@sheetwave/design';
import { type FrequencyBand, portReflection, type Response } from '@sheetwave/rf';
import type { HistorySource } from '../log/history.ts';
import { withoutCables } from '../sweep/cable.ts';
import { againstReference } from '../sweep/reference.ts';
import type { TrimSweep } from './as-built.ts';

/** What the build log tells trimming of the antenna as it was before. */
export interface TrimPast {
  readonly sweeps: readonly TrimSweep[];
  /** Sizes now, by what the caliper read of them then; m. */
  readonly readings: Readonly<Record<string, number>>;
}

/**
 * Earlier sweeps and readings of the log, as far as the design then had the same dimensions and the sweep covers the band. The sweep in
 * hand may be in the log already, and is left out then.
 */
export function trimPast(sources: readonly HistorySource[], now: Design, present: Response): TrimPast {
  return {
    sweeps: sources.flatMap((source) => earlierOf(source, now, present)),
    readings: Object.assign({}, ...sources.map((source) => readingsOf(source, now))),
  };
}

/** A sweep of one port at the antenna, of the design with these changes. */
export const trimSweep = (response: Response, changes: TrimSweep['changes']): TrimSweep => ({
  freqHz: response.freqHz,
  reflection: portReflection(response),
  changes,
});

/** A hundredth beyond the band on each side is needed, for a model that may resonate a little beside the antenna. */
export const coversBand = ({ freqHz }: Response, { lowHz, highHz }: FrequencyBand): boolean =>
  (freqHz[0] ?? Number.POSITIVE_INFINITY) * 1.01 <= lowHz && (freqHz.at(-1) ?? 0) * 0.99 >= highHz;

export const readingsInMetres = (mm: Readonly<Record<string, number>>): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(mm).map(([path, value]) => [path, value / 1000]));

/** What the design had then less what it has now, m; undefined when it had other dimensions. */
function changesSince(then: Design | undefined, now: Design): Readonly<Record<string, number>> | undefined {
  if (then === undefined) return undefined;
  const before = new Map(dimensionsOf(then).map(({ path, nominal }) => [path, nominal]));
  const dimensions = dimensionsOf(now);
  if (before.size !== dimensions.length || dimensions.some(({ path }) => !before.has(path))) return undefined;
  return Object.fromEntries(
    dimensions.flatMap(({ path, nominal, unit }): readonly [string, number][] => {
      const change = (before.get(path) ?? nominal) - nominal;
      return change === 0 ? [] : [[path, unit === 'mm' ? change / 1000 : change]];
    }),
  );
}

function earlierOf({ entry, design, sweep }: HistorySource, now: Design, present: Response): readonly TrimSweep[] {
  const changes = changesSince(design, now);
  if (sweep === undefined || changes === undefined) return [];
  const { cable } = entry.sweep ?? {};
  const bare = cable === undefined ? sweep : withoutCables(sweep, [cable]);
  const response = againstReference(bare, now.coax.coax.impedanceOhm);
  const same = JSON.stringify(response.s) === JSON.stringify(present.s);
  return same || !coversBand(response, now.band) ? [] : [trimSweep(response, changes)];
}

/** A size read then, with what the design has changed since. */
function readingsOf({ entry, design }: HistorySource, now: Design): Readonly<Record<string, number>> {
  const changes = changesSince(design, now);
  if (changes === undefined) return {};
  return Object.fromEntries(
    Object.entries(readingsInMetres(entry.measuredMm ?? {})).map(([path, size]) => [path, size - (changes[path] ?? 0)]),
  );
}
