import type { Layout } from '../../kernel.ts';

/** In which order the rows and steps of a batch are run. The results are the same, bit for bit. */
export type Schedule =
  | { readonly kind: 'two-pass' }
  | { readonly kind: 'fused' }
  /** Temporal blocking: tiles of at most so many rows, taken through so many steps at once. */
  | { readonly kind: 'blocked'; readonly rows: number; readonly steps: number };

/** Bytes of second-level cache that one thread can count on. No host tells it, so the usual size is taken. */
export const USUAL_CACHE_BYTES = 2 * 2 ** 20;

export interface ScheduleRequest {
  readonly layout: Layout;
  readonly threads: number;
  readonly cacheBytes: number;
}

const FIELDS = 6;
/** Share of the cache that a working set may take. */
const CACHE_SHARE = 0.6;
const STEPS_OF_A_ROUND = 8;
const LEAST_ROWS = 8;

/**
 * Where the fields of one thread fit its cache, each thread keeps a slab of planes; else tiles in time, as many rows as
 * the cache holds: (steps + 1) planes of (rows + steps) rows of six fields.
 */
export function chooseSchedule({ layout, threads, cacheBytes }: ScheduleRequest): Schedule {
  const { sx, ny, nz } = layout.shape;
  const rowOfFields = 4 * FIELDS * sx;
  if ((rowOfFields * ny * nz) / threads <= cacheBytes) return { kind: 'fused' };
  const steps = Math.min(STEPS_OF_A_ROUND, layout.maxBatch);
  const fitting = Math.floor((CACHE_SHARE * cacheBytes) / (rowOfFields * (steps + 1))) - steps;
  // As many tiles for each thread, so that all end a batch together.
  const turns = Math.ceil(ny / (threads * Math.max(LEAST_ROWS, fitting)));
  return { kind: 'blocked', rows: Math.ceil(ny / (turns * threads)), steps };
}
