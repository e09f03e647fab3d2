import type { Complex } from './complex.ts';
import { requireFinite } from './require.ts';
import { chainReflection, type ResonatorChain } from './resonator-chain.ts';

/** How one dimension of an antenna moves its response. Lengths in m; a permittivity is a plain number. */
export interface DimensionSlope {
  /** Where it stands in the design, as in a finding: `layer[0].length`. */
  readonly path: string;
  /** For people: `length of driven`. */
  readonly words: string;
  /** What sets it: a cut that can only take off, an opening that can only grow, a place to drill, a spacer, a bend, or what was bought. */
  readonly setBy: 'cut' | 'open' | 'drill' | 'spacer' | 'bend' | 'stock';
  readonly unit: 'm' | '';
  readonly nominal: number;
  /** Plus or minus, two standard deviations. */
  readonly tolerance: number;
  /** Change of each parameter of the chain per unit of the dimension, and half the second derivative. */
  readonly slopes: readonly number[];
  readonly bends: readonly number[];
}

/** A response as a function of the dimensions of its antenna, from field solutions beside each other. Plain data. */
export interface ResponseModel {
  readonly lowHz: number;
  readonly highHz: number;
  /** At the nominal dimensions. */
  readonly chain: ResonatorChain;
  /** Hz, rising; what the field solution has there beyond the chain. */
  readonly freqHz: readonly number[];
  readonly rest: readonly Complex[];
  readonly dimensions: readonly DimensionSlope[];
  /** How far the model is from field solutions with several dimensions changed at once, as a difference of reflection. */
  readonly error: number;
}

/** By path: how much larger than nominal, in m or plain. */
export type DimensionChanges = Readonly<Record<string, number>>;

/** Parameters of the chain with changed dimensions: straight lines and, of each dimension by itself, a parabola. Throws RangeError for a path that is not in the model. */
export function chainOfModel({ chain, dimensions }: ResponseModel, changes: DimensionChanges): ResonatorChain {
  requireFinite(changes);
  const parameters = [...chain.parameters];
  for (const [path, change] of Object.entries(changes)) {
    const dimension = dimensions.find((one) => one.path === path);
    if (dimension === undefined) throw new RangeError(`${path} is no dimension of the model.`);
    for (let i = 0; i < parameters.length; i++) {
      parameters[i] =
        (parameters[i] ?? 0) + (dimension.slopes[i] ?? 0) * change + (dimension.bends[i] ?? 0) * change ** 2;
    }
  }
  return { ...chain, parameters };
}

/** A list of complex samples read between its frequencies, by straight lines; the end values beyond them. */
export function samplesAt(
  freqHz: readonly number[],
  values: readonly Complex[],
  at: readonly number[],
): readonly Complex[] {
  let high = 0;
  return at.map((f) => {
    if ((freqHz[high - 1] ?? 0) > f) high = 0;
    while (high < freqHz.length - 1 && (freqHz[high] ?? 0) < f) high++;
    const low = Math.max(0, high - 1);
    const [fa, fb, a, b] = [freqHz[low], freqHz[high], values[low], values[high]];
    if (fa === undefined || fb === undefined || a === undefined || b === undefined) {
      throw new RangeError('There must be samples to read between.');
    }
    const share = fb === fa ? 0 : Math.min(1, Math.max(0, (f - fa) / (fb - fa)));
    return { re: a.re + share * (b.re - a.re), im: a.im + share * (b.im - a.im) };
  });
}

/** Reflection of the model at any frequencies within its sweep. */
export function modelReflection(
  model: ResponseModel,
  changes: DimensionChanges,
  at: readonly number[],
): readonly Complex[] {
  const flat = chainReflection(chainOfModel(model, changes), at);
  return samplesAt(model.freqHz, model.rest, at).map(({ re, im }, k) => ({
    re: re + (flat[2 * k] ?? 0),
    im: im + (flat[2 * k + 1] ?? 0),
  }));
}
