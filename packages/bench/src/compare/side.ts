import {
  type FrequencyBand,
  portFeatures,
  portReflection,
  type Response,
  type VswrBand,
  type VswrInBand,
  vswrBands,
  vswrInBand,
} from '@sheetwave/rf';
import { sweepNoise } from '../sweep/noise.ts';

/** Which definition of resonance a frequency belongs to; only frequencies of one kind are compared. */
export type FeatureKind = 'least-reflection' | 'resistance-peak' | 'reactance-rising' | 'reactance-falling';

/** Kinds that a cable in front of the antenna moves. */
export const MOVED_BY_CABLE: ReadonlySet<FeatureKind> = new Set([
  'resistance-peak',
  'reactance-rising',
  'reactance-falling',
]);

export interface Feature {
  readonly kind: FeatureKind;
  readonly freqHz: number;
  /** VSWR at a least reflection, ohm at the others. */
  readonly value: number;
}

/** A stretch at or below a VSWR, and how wide it is. */
export interface Bandwidth extends VswrBand {
  readonly widthHz: number;
  /** Of the centre of the stretch. */
  readonly percent: number;
}

/** One curve, read in the way that both sides of a comparison are. */
export interface Side {
  readonly origin: Response['origin'];
  readonly method: string;
  readonly features: readonly Feature[];
  /** Best and worst VSWR in the design's band; undefined when the curve has nothing there. */
  readonly inBand: VswrInBand | undefined;
  /** The stretch that has most of the design's band in it, or lies nearest, at VSWR 2 and at the target. */
  readonly atTwo: Bandwidth | undefined;
  readonly atTarget: Bandwidth | undefined;
  /** Noise of each part of the reflection, rms; of a measurement. */
  readonly noise: number | undefined;
}

export interface Aim {
  readonly band: FrequencyBand;
  readonly targetVswr: number;
  readonly port?: number;
}

/** Least dip and peak that count in a smooth curve; of a measured one at least four times its noise (that of a dip of four sigma). */
const LEAST_DIP = 0.02;
const LEAST_PEAK = 0.02;
/** Features this far from the band, in widths of the band, belong to it. */
const BEYOND = 3;

export function sideOf(response: Response, { band, targetVswr, port = 0 }: Aim): Side {
  const noise = response.origin === 'measurement' ? sweepNoise(portReflection(response, port)) : undefined;
  const least = 4 * (noise ?? 0);
  const found = portFeatures(response, {
    port,
    leastDip: Math.max(LEAST_DIP, least),
    leastPeak: Math.max(LEAST_PEAK, 2 * least),
  });
  const reach = BEYOND * (band.highHz - band.lowHz);
  const features: readonly Feature[] = [
    ...found.leastReflections.map(({ freqHz, vswr }) => ({ kind: 'least-reflection' as const, freqHz, value: vswr })),
    ...found.resistancePeaks.map(({ freqHz, resistanceOhm }) => ({
      kind: 'resistance-peak' as const,
      freqHz,
      value: resistanceOhm,
    })),
    ...withoutFlicker(found.reactanceZeros, (noise ?? 0) > 0).map(({ freqHz, resistanceOhm, slope }) => ({
      kind: slope === 'rising' ? ('reactance-rising' as const) : ('reactance-falling' as const),
      freqHz,
      value: resistanceOhm,
    })),
  ];
  return {
    origin: response.origin,
    method: response.method,
    features: features.filter(({ freqHz }) => freqHz > band.lowHz - reach && freqHz < band.highHz + reach),
    inBand: vswrInBand(response, band, port),
    atTwo: mainBand(vswrBands(response, 2, port), band),
    atTarget: mainBand(vswrBands(response, targetVswr, port), band),
    noise,
  };
}

/** Pairs of zeros a few samples apart, which noise makes where the reactance is near nought, tell nothing: of such a run the middle one is kept when its ends differ. */
function withoutFlicker<T extends { readonly freqHz: number; readonly slope: string }>(
  zeros: readonly T[],
  noisy: boolean,
): readonly T[] {
  if (!noisy) return zeros;
  const runs: T[][] = [];
  for (const zero of zeros) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    if (run !== undefined && last !== undefined && zero.freqHz / last.freqHz < 1.003) run.push(zero);
    else runs.push([zero]);
  }
  return runs.flatMap((run) => (run.length % 2 === 1 ? run.slice((run.length - 1) / 2, (run.length + 1) / 2) : []));
}

function overlap(a: FrequencyBand, b: FrequencyBand): number {
  return Math.min(a.highHz, b.highHz) - Math.max(a.lowHz, b.lowHz);
}

/** The stretch that overlaps the band most, or is nearest to it: a gap counts as an overlap below nought. */
function mainBand(bands: readonly VswrBand[], band: FrequencyBand): Bandwidth | undefined {
  const [first, ...others] = bands;
  if (first === undefined) return undefined;
  const best = others.reduce((a, b) => (overlap(b, band) > overlap(a, band) ? b : a), first);
  const widthHz = best.highHz - best.lowHz;
  return { ...best, widthHz, percent: (200 * widthHz) / (best.highHz + best.lowHz) };
}
