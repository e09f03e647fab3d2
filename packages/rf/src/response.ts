import type { Complex } from './complex.ts';
import type { Direction } from './patch-pattern.ts';
import { reflection } from './reflection.ts';
import { requirePositive } from './require.ts';

/** Where a response comes from: closed forms, a field solution, or an instrument. */
export type ResponseOrigin = 'estimate' | 'prediction' | 'measurement';

/** How far a response may be from the truth. A part that is not known is left out. */
export interface ResponseError {
  /** Relative, of features along the frequency axis such as a resonance. */
  readonly frequency?: number;
  /** Absolute, of each reflection or transmission coefficient. */
  readonly coefficient?: number;
  readonly gainDb?: number;
  /** A sentence: what these rest on. */
  readonly origin: string;
}

/** Power over direction at one frequency. */
export interface RadiationPattern {
  readonly freqHz: number;
  readonly directions: readonly Direction[];
  /** dBi, one for each direction. */
  readonly gainDbi: readonly number[];
}

/** What an antenna does over frequency. Plain data; the same for an estimate, a prediction and a measurement. */
export interface Response {
  readonly origin: ResponseOrigin;
  /** A sentence: the method, or the instrument. */
  readonly method: string;
  readonly error: ResponseError;
  /** Hz, rising. */
  readonly freqHz: readonly number[];
  /** Of all ports, ohm. */
  readonly referenceOhm: number;
  /** s[i][to][from] at freqHz[i]; a single port has s[i][0][0]. */
  readonly s: readonly (readonly (readonly Complex[])[])[];
  /** Straight ahead, with loss and mismatch, dBi, at freqHz[i]. */
  readonly gainDbi?: readonly number[];
  readonly patterns?: readonly RadiationPattern[];
}

function checkFrequencies(freqHz: readonly number[]): void {
  freqHz.forEach((value, i) => {
    requirePositive({ [`freqHz[${i}]`]: value });
    const before = freqHz[i - 1];
    if (before !== undefined && value <= before) {
      throw new RangeError(`freqHz[${i}] must be above the one before (${before}), not ${value}.`);
    }
  });
}

function requireLength(name: string, found: number, wanted: number): void {
  if (found !== wanted) throw new RangeError(`${name} must have ${wanted} entries, not ${found}.`);
}

/** The same response, checked: frequencies rise, every list has its length, all matrices are square and of one size. Throws RangeError. */
export function checkedResponse(response: Response): Response {
  const { freqHz, s, gainDbi, referenceOhm, patterns = [] } = response;
  requirePositive({ referenceOhm });
  checkFrequencies(freqHz);
  requireLength('s', s.length, freqHz.length);
  const ports = s[0]?.length ?? 0;
  s.forEach((matrix, i) => {
    requireLength(`s[${i}]`, matrix.length, ports);
    matrix.forEach((row, j) => {
      requireLength(`s[${i}][${j}]`, row.length, ports);
    });
  });
  if (gainDbi) requireLength('gainDbi', gainDbi.length, freqHz.length);
  patterns.forEach((pattern, i) => {
    requireLength(`patterns[${i}].gainDbi`, pattern.gainDbi.length, pattern.directions.length);
  });
  return response;
}

interface OnePort extends Pick<Response, 'origin' | 'method' | 'error' | 'freqHz' | 'referenceOhm'> {
  readonly impedance: (freqHz: number) => Complex;
}

/** The response of a single port whose impedance (ohm) is known over frequency. */
export function onePortResponse({ impedance, ...rest }: OnePort): Response {
  const s = rest.freqHz.map((f) => [[reflection(impedance(f), rest.referenceOhm)]]);
  return checkedResponse({ ...rest, s });
}

/** `count` frequencies (Hz) from `lowHz` to `highHz`, evenly spaced, both ends included. */
export function sweepFrequencies(lowHz: number, highHz: number, count: number): readonly number[] {
  requirePositive({ lowHz, highHz });
  if (!(highHz > lowHz)) throw new RangeError(`highHz must be above lowHz (${lowHz}), not ${highHz}.`);
  if (!(Number.isInteger(count) && count >= 2))
    throw new RangeError(`count must be a whole number, 2 or above, not ${count}.`);
  return Array.from({ length: count }, (_, i) => lowHz + ((highHz - lowHz) * i) / (count - 1));
}
