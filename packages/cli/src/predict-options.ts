import type { PredictionRequest } from '@sheetwave/pack';
import { usageFailure } from './failure.ts';
import { visible } from './terminal.ts';

/** What was asked for on the command line, checked. */
export interface PredictOptions {
  readonly request: PredictionRequest;
  /** What the solver may take, bytes; undefined for half of the machine's. */
  readonly memoryBytes: number | undefined;
  /** Undefined for all that help. */
  readonly threads: number | undefined;
  readonly useCache: boolean;
  /** Where and how often progress is shown is the terminal's matter; this shows it with `--json` too. */
  readonly showProgress: boolean;
}

const QUALITIES = ['draft', 'normal', 'fine'] as const;
const FEEDS = ['as-built', 'each-element'] as const;
const MOST_POINTS = 20_001;
const MOST_THREADS = 256;

/** Reads the options of `predict`. Throws a usage Failure that says what is allowed. */
export function predictOptions(switches: ReadonlySet<string>, values: ReadonlyMap<string, string>): PredictOptions {
  return {
    request: {
      quality: oneOf('quality', values, QUALITIES) ?? 'normal',
      feed: oneOf('feed', values, FEEDS) ?? 'as-built',
      twoMeshes: switches.has('check-mesh'),
      points: whole('points', values, { least: 2, most: MOST_POINTS }) ?? 201,
    },
    memoryBytes: memory(values.get('memory')),
    threads: whole('threads', values, { least: 1, most: MOST_THREADS }),
    useCache: !switches.has('no-cache'),
    showProgress: switches.has('progress'),
  };
}

function oneOf<T extends string>(
  name: string,
  values: ReadonlyMap<string, string>,
  allowed: readonly T[],
): T | undefined {
  const given = values.get(name);
  if (given === undefined) return undefined;
  const found = allowed.find((word) => word === given);
  if (found === undefined) throw usageFailure(`--${name} ${visible(given)} is not known; give ${orList(allowed)}`);
  return found;
}

const orList = (words: readonly string[]): string => `${words.slice(0, -1).join(', ')} or ${words.at(-1) ?? ''}`;

function whole(
  name: string,
  values: ReadonlyMap<string, string>,
  { least, most }: { readonly least: number; readonly most: number },
): number | undefined {
  const given = values.get(name);
  if (given === undefined) return undefined;
  const value = /^\d{1,9}$/.test(given) ? Number(given) : Number.NaN;
  if (!(value >= least && value <= most))
    throw usageFailure(`--${name} ${visible(given)} is not a whole number from ${least} to ${most}`);
  return value;
}

/** Decimal and binary multiples of a byte (IEC 80000-13). */
const BYTES: Readonly<Record<string, number>> = { MB: 1e6, GB: 1e9, MiB: 2 ** 20, GiB: 2 ** 30 };

function memory(given: string | undefined): number | undefined {
  if (given === undefined) return undefined;
  const match = /^(\d{1,7}(?:\.\d{1,3})?) ?(MB|GB|MiB|GiB)$/.exec(given);
  const bytes = Number(match?.[1]) * (BYTES[match?.[2] ?? ''] ?? Number.NaN);
  if (!(bytes > 0))
    throw usageFailure(`--memory ${visible(given)} is not an amount of memory; write it as in --memory "2 GB"`);
  return bytes;
}
