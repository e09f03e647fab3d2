import { sha256Hex } from '../sha256.ts';
import type { PredictionRequest } from './prediction-record.ts';

/** Everything that a prediction depends on. */
export interface PredictionSubject {
  /** The antenna as the solver sees it: plain data. */
  readonly scene: unknown;
  readonly request: PredictionRequest;
  /** What else the answer rests on: the band, the targets, the element names. Plain data. */
  readonly setting: unknown;
  /** The version of the solver. */
  readonly solver: string;
}

/**
 * A digest of what a prediction depends on, hexadecimal. The order of the keys of an object does not count; a number counts to its
 * last bit.
 */
export function predictionKey(subject: PredictionSubject): string {
  return sha256Hex(new TextEncoder().encode(canonical(subject)));
}

function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value).filter(([, one]) => one !== undefined);
    return `{${entries
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, one]) => `${JSON.stringify(key)}:${canonical(one)}`)
      .join(',')}}`;
  }
  if (typeof value === 'number' && !Number.isFinite(value)) return String(value);
  return JSON.stringify(value) ?? 'undefined';
}
