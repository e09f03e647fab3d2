import { type Complex, magnitude } from './complex.ts';
import { curveDips, curvePeaks } from './curve-extrema.ts';
import { impedanceOf, magnitudeOfVswr, vswr } from './reflection.ts';
import { requireBetween, requirePositive } from './require.ts';
import type { Response } from './response.ts';

/**
 * What a person reads off the curve of one port. Each is a definition of "resonance" in use, and they differ by percents in a thick or
 * stacked patch, so a number is only compared with another of the same kind.
 */
export interface PortFeatures {
  /** Where the resistance is highest. */
  readonly resistancePeaks: readonly ResistancePeak[];
  /** Where the reactance goes through zero. */
  readonly reactanceZeros: readonly ReactanceZero[];
  /** Where the least is reflected. */
  readonly leastReflections: readonly LeastReflection[];
}

export interface ResistancePeak {
  readonly freqHz: number;
  readonly resistanceOhm: number;
}

export interface ReactanceZero {
  readonly freqHz: number;
  /** What is left there. */
  readonly resistanceOhm: number;
  /** Over frequency: rising as in a series circuit, falling as in a parallel one. */
  readonly slope: 'rising' | 'falling';
}

export interface LeastReflection {
  readonly freqHz: number;
  /** Magnitude of the reflection coefficient, 0 to 1. */
  readonly reflection: number;
  readonly vswr: number;
}

/** A stretch of frequency where the VSWR is at or below a limit. */
export interface VswrBand {
  readonly lowHz: number;
  readonly highHz: number;
  /** False where the sweep begins before the limit is crossed: the band then goes on below. */
  readonly lowSeen: boolean;
  readonly highSeen: boolean;
}

export interface FrequencyBand {
  readonly lowHz: number;
  readonly highHz: number;
}

export interface VswrAt {
  readonly freqHz: number;
  readonly vswr: number;
}

/** The VSWR within a band, as far as the response reaches. */
export interface VswrInBand {
  readonly best: VswrAt;
  readonly worst: VswrAt;
  /** What was looked at. */
  readonly lowHz: number;
  readonly highHz: number;
  /** Whether that is the whole band. */
  readonly whole: boolean;
}

export interface FeatureOptions {
  /** Which port, from 0. */
  readonly port?: number;
  /** Least dip of the reflection that counts, in its magnitude (0 to 1), so that noise makes no resonance. 0 takes every dip. */
  readonly leastDip?: number;
  /** Least rise of a resistance peak over what is beside it, as a share of the peak. 0 takes every peak. */
  readonly leastPeak?: number;
}

/** Reflection of one port at each frequency. Throws RangeError for a port that the response does not have. */
export function portReflection(response: Response, port = 0): readonly Complex[] {
  return response.s.map((matrix, i) => {
    const value = matrix[port]?.[port];
    if (value === undefined) throw new RangeError(`port ${port} is not among the ${matrix.length} ports of s[${i}].`);
    return value;
  });
}

/** VSWR of a reflection as measured: infinite when noise or a bad calibration makes its magnitude 1 or more. */
export const measuredVswr = (reflection: number): number => vswr(Math.min(1, reflection));

/** Resonances of one port by three definitions, each in order of frequency. */
export function portFeatures(response: Response, options: FeatureOptions = {}): PortFeatures {
  const { port = 0, leastDip = 0, leastPeak = 0 } = options;
  const gamma = portReflection(response, port);
  const { freqHz, referenceOhm } = response;
  return {
    resistancePeaks: resistancePeaks({ freqHz, gamma, referenceOhm, leastPeak }),
    reactanceZeros: reactanceZeros(freqHz, gamma, referenceOhm),
    leastReflections: leastReflections(freqHz, gamma, leastDip),
  };
}

interface Curve {
  readonly freqHz: readonly number[];
  readonly gamma: readonly Complex[];
  readonly referenceOhm: number;
  readonly leastPeak: number;
}

function resistancePeaks({ freqHz, gamma, referenceOhm, leastPeak }: Curve): readonly ResistancePeak[] {
  const ohm = gamma.map((value) => impedanceOf(value, referenceOhm).re);
  return curvePeaks(freqHz, ohm)
    .filter((peak) => peak.y > 0 && peak.prominence >= leastPeak * peak.y)
    .map((peak) => ({ freqHz: peak.x, resistanceOhm: peak.y }));
}

/**
 * X = 0 where Im(reflection) = 0, and of the same sign beside it (for a reflection below 1): the reflection stays finite where the
 * impedance does not, so an open end makes no false zero. Between two samples the reflection is taken as a straight line.
 */
function reactanceZeros(
  freqHz: readonly number[],
  gamma: readonly Complex[],
  referenceOhm: number,
): readonly ReactanceZero[] {
  const zeros: ReactanceZero[] = [];
  for (let i = 1; i < gamma.length; i++) {
    const [a, b] = [gamma[i - 1], gamma[i]];
    const [fa, fb] = [freqHz[i - 1], freqHz[i]];
    if (a === undefined || b === undefined || fa === undefined || fb === undefined) continue;
    // A sample of exactly zero belongs to the step that ends in it, once.
    const crosses = (a.im < 0 && b.im >= 0) || (a.im > 0 && b.im <= 0);
    if (!crosses) continue;
    const share = a.im / (a.im - b.im);
    const re = a.re + share * (b.re - a.re);
    zeros.push({
      freqHz: fa + share * (fb - fa),
      resistanceOhm: impedanceOf({ re, im: 0 }, referenceOhm).re,
      slope: a.im < 0 ? 'rising' : 'falling',
    });
  }
  return zeros;
}

/** Dips of |reflection|^2, which is smooth where the magnitude itself has a corner. A cable in front of the port does not move them. */
function leastReflections(
  freqHz: readonly number[],
  gamma: readonly Complex[],
  leastDip: number,
): readonly LeastReflection[] {
  const power = gamma.map((value) => value.re ** 2 + value.im ** 2);
  return curveDips(freqHz, power)
    .map((dip) => ({ ...dip, size: Math.sqrt(Math.max(0, dip.y)) }))
    .filter(({ size, y, prominence }) => Math.sqrt(Math.max(0, y) + prominence) - size >= leastDip && size < 1)
    .map(({ x, size }) => ({ freqHz: x, reflection: size, vswr: measuredVswr(size) }));
}

interface Sizes {
  readonly freqHz: readonly number[];
  readonly size: readonly number[];
}

/** |reflection| at the samples and at the turning points between them, so that a dip between two samples is not overlooked. */
function sizesWithTurns(response: Response, port: number): Sizes {
  const gamma = portReflection(response, port);
  const { freqHz } = response;
  const power = gamma.map((value) => value.re ** 2 + value.im ** 2);
  const turns = [...curveDips(freqHz, power), ...curvePeaks(freqHz, power)];
  const points = gamma.map((value, i) => ({ f: freqHz[i] ?? Number.NaN, size: magnitude(value) }));
  for (const turn of turns) points.push({ f: turn.x, size: Math.sqrt(Math.max(0, turn.y)) });
  points.sort((a, b) => a.f - b.f);
  return { freqHz: points.map(({ f }) => f), size: points.map(({ size }) => size) };
}

/** Where a straight line from (fa, a) to (fb, b) is at `limit`. */
const crossing = (fa: number, fb: number, a: number, b: number, limit: number): number =>
  a === b ? fa : fa + ((fb - fa) * (limit - a)) / (b - a);

/**
 * Every stretch where the VSWR is at or below `limit` (above 1), in order. Between samples |reflection| is taken as straight: a cable in
 * front of the port then changes nothing.
 */
export function vswrBands(response: Response, limit: number, port = 0): readonly VswrBand[] {
  requireBetween('limit', limit, { low: 1, high: Number.POSITIVE_INFINITY });
  const most = magnitudeOfVswr(limit);
  const { freqHz, size } = sizesWithTurns(response, port);
  const bands: VswrBand[] = [];
  let open: { lowHz: number; lowSeen: boolean } | undefined;
  for (const [i, here] of size.entries()) {
    const f = freqHz[i] ?? Number.NaN;
    const before = size[i - 1];
    const cross = before === undefined ? f : crossing(freqHz[i - 1] ?? f, f, before, here, most);
    if (here <= most && open === undefined) open = { lowHz: cross, lowSeen: before !== undefined };
    else if (here > most && open !== undefined) {
      bands.push({ ...open, highHz: cross, highSeen: true });
      open = undefined;
    }
  }
  const last = freqHz.at(-1);
  if (open !== undefined && last !== undefined) bands.push({ ...open, highHz: last, highSeen: false });
  return bands;
}

/** Best and worst VSWR within a band, its interpolated edges included; undefined when the response has nothing there. */
export function vswrInBand(response: Response, band: FrequencyBand, port = 0): VswrInBand | undefined {
  requirePositive({ lowHz: band.lowHz });
  requireBetween('highHz', band.highHz, { low: band.lowHz, high: Number.POSITIVE_INFINITY });
  const sizes = sizesWithTurns(response, port);
  const lowHz = Math.max(band.lowHz, sizes.freqHz[0] ?? Number.POSITIVE_INFINITY);
  const highHz = Math.min(band.highHz, sizes.freqHz.at(-1) ?? Number.NEGATIVE_INFINITY);
  if (!(lowHz <= highHz)) return undefined;
  const inside = sizes.freqHz
    .map((f, i) => ({ freqHz: f, size: sizes.size[i] ?? Number.NaN }))
    .filter(({ freqHz }) => freqHz > lowHz && freqHz < highHz);
  const all = [
    { freqHz: lowHz, size: sizeAt(sizes, lowHz) },
    ...inside,
    { freqHz: highHz, size: sizeAt(sizes, highHz) },
  ];
  const first = all[0] ?? { freqHz: lowHz, size: Number.NaN };
  const best = all.reduce((a, b) => (b.size < a.size ? b : a), first);
  const worst = all.reduce((a, b) => (b.size > a.size ? b : a), first);
  const at = ({ freqHz, size }: typeof best): VswrAt => ({ freqHz, vswr: measuredVswr(size) });
  const whole = lowHz === band.lowHz && highHz === band.highHz;
  return { best: at(best), worst: at(worst), lowHz, highHz, whole };
}

function sizeAt({ freqHz, size }: Sizes, f: number): number {
  const after = freqHz.findIndex((value) => value >= f);
  const here = size[after] ?? Number.NaN;
  const [fb, fa, before] = [freqHz[after], freqHz[after - 1], size[after - 1]];
  if (fb === undefined || fa === undefined || before === undefined || fb === f || fa === fb) return here;
  return before + ((here - before) * (f - fa)) / (fb - fa);
}
