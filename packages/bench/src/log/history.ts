import { type Design, dimensionsOf } from '@sheetwave/design';
import type { Response } from '@sheetwave/rf';
import { type Aim, type Side, sideOf } from '../compare/side.ts';
import { withoutCables } from '../sweep/cable.ts';
import { againstReference } from '../sweep/reference.ts';
import type { LogEntry } from './log-entry.ts';

/** What one entry of the log adds to the story. */
export interface HistoryRow {
  readonly number: number;
  readonly date: string;
  readonly revision: string;
  /** Dimensions that the design has changed since the entry before, in mm. */
  readonly changed: readonly {
    readonly path: string;
    readonly words: string;
    readonly from: number;
    readonly to: number;
  }[];
  readonly measuredMm: Readonly<Record<string, number>>;
  readonly note: string;
  /** Least reflection nearest to the middle of the band, Hz; undefined without a sweep that shows one. */
  readonly leastReflectionHz: number | undefined;
  readonly side: Side | undefined;
  /** The sweep with its cable taken out. */
  readonly response: Response | undefined;
}

export interface HistorySource {
  readonly entry: LogEntry;
  /** As it was then; undefined where its copy cannot be read. */
  readonly design: Design | undefined;
  readonly sweep: Response | undefined;
}

/** The log as a story: what changed from entry to entry, and what each sweep showed. `aim` is that of the design as it is now. */
export function history(sources: readonly HistorySource[], aim: Aim, referenceOhm: number): readonly HistoryRow[] {
  let before: Design | undefined;
  return sources.map(({ entry, design, sweep }) => {
    const changed = before !== undefined && design !== undefined ? changes(before, design) : [];
    before = design ?? before;
    const response = sweep === undefined ? undefined : atAntenna(sweep, entry, referenceOhm);
    const side = response === undefined ? undefined : sideOf(response, aim);
    return {
      number: entry.number,
      date: entry.date,
      revision: entry.design.revision,
      changed,
      measuredMm: entry.measuredMm ?? {},
      note: entry.note ?? '',
      leastReflectionHz: side === undefined ? undefined : nearestDip(side, aim),
      side,
      response,
    };
  });
}

function atAntenna(sweep: Response, { sweep: kept }: LogEntry, referenceOhm: number): Response {
  const cable = kept?.cable;
  return againstReference(cable === undefined ? sweep : withoutCables(sweep, [cable]), referenceOhm);
}

function nearestDip({ features }: Side, { band }: Aim): number | undefined {
  const middle = (band.lowHz + band.highHz) / 2;
  const dips = features.filter(({ kind }) => kind === 'least-reflection').map(({ freqHz }) => freqHz);
  return dips.reduce<number | undefined>(
    (best, f) => (best === undefined || Math.abs(f - middle) < Math.abs(best - middle) ? f : best),
    undefined,
  );
}

function changes(before: Design, after: Design): HistoryRow['changed'] {
  const old = new Map(dimensionsOf(before).map(({ path, nominal }) => [path, nominal]));
  return dimensionsOf(after).flatMap(({ path, words, nominal }) => {
    const from = old.get(path);
    return from === undefined || from === nominal ? [] : [{ path, words, from, to: nominal }];
  });
}
