import { type Design, withDimensions } from '@sheetwave/design';
import {
  chainReflection,
  magnitudeOfVswr,
  portReflection,
  type Response,
  type ResponseModel,
  samplesAt,
  sweepFrequencies,
} from '@sheetwave/rf';
import { normalRandom, seededRandom } from '../sizing/random.ts';

/** What one dimension does to the yield. */
export interface YieldShare {
  readonly path: string;
  readonly words: string;
  /** Plus or minus, mm or plain. */
  readonly tolerance: number;
  /** Yield if this dimension alone were exact, 0 to 1. */
  readonly yieldIfExact: number;
  /** Share of the variance of the worst reflection that goes with it in a straight line, 0 to 1. */
  readonly varianceShare: number;
  /** Tolerance at which the yield is 90 % while the others stay; undefined when no tolerance of this one does it, and the present one when it is 90 % already. */
  readonly toleranceFor90: number | undefined;
}

export interface YieldReport {
  /** Largest VSWR over the band that passes. */
  readonly vswr: number;
  readonly samples: number;
  readonly seed: number;
  /** Share of antennas that meet it, 0 to 1, and the 95 % interval that the number of samples leaves (Wilson, J. Am. Stat. Assoc. 22 (1927) 209). */
  readonly yield: number;
  readonly low: number;
  readonly high: number;
  /** Error of the model in the worst reflection, from field solutions of antennas drawn at random; undefined when none was made. */
  readonly modelError: number | undefined;
  /** Yield if the model reflects that much too little or too much, as [least, most]. */
  readonly withModelError: readonly [number, number] | undefined;
  readonly checks: readonly YieldCheck[];
  /** The largest effect first. */
  readonly shares: readonly YieldShare[];
  /** All tolerances times this give 90 %; undefined when the nominal design itself fails. */
  readonly allTimesFor90: number | undefined;
}

/** One antenna drawn at random and solved. */
export interface YieldCheck {
  readonly expected: number;
  readonly solved: number;
}

export interface YieldOptions {
  readonly model: ResponseModel;
  readonly vswr: number;
  /** Default 20000. */
  readonly samples?: number;
  /** Default 1. */
  readonly seed?: number;
  /** Field solutions of random antennas to judge the model by. Default none. */
  readonly checks?: {
    readonly count: number;
    readonly design: Design;
    readonly solve: (design: Design) => Promise<Response>;
  };
}

/** Frequencies of the band that are looked at. */
const POINTS = 17;
const WANTED = 0.9;

interface Trial {
  readonly model: ResponseModel;
  readonly freqHz: readonly number[];
  readonly rest: readonly { readonly re: number; readonly im: number }[];
  /** Standard normal numbers, one row a sample. */
  readonly draws: readonly (readonly number[])[];
  readonly limit: number;
}

/** Largest reflection over the band with the dimensions off by these shares of half their tolerance. */
function worstAt(
  { model, freqHz, rest }: Omit<Trial, 'draws' | 'limit'>,
  draw: readonly number[],
  times: readonly number[],
): number {
  const parameters = [...model.chain.parameters];
  model.dimensions.forEach(({ tolerance, slopes, bends }, d) => {
    const change = ((draw[d] ?? 0) * (times[d] ?? 1) * tolerance) / 2;
    for (let i = 0; i < parameters.length; i++) {
      parameters[i] = (parameters[i] ?? 0) + (slopes[i] ?? 0) * change + (bends[i] ?? 0) * change * change;
    }
  });
  const flat = chainReflection({ ...model.chain, parameters }, freqHz);
  let worst = 0;
  for (let k = 0; k < freqHz.length; k++) {
    worst = Math.max(
      worst,
      Math.hypot((flat[2 * k] ?? 0) + (rest[k]?.re ?? 0), (flat[2 * k + 1] ?? 0) + (rest[k]?.im ?? 0)),
    );
  }
  return worst;
}

function yieldOf(trial: Trial, times: readonly number[], count = trial.draws.length): number {
  let passed = 0;
  for (let n = 0; n < count; n++) if (worstAt(trial, trial.draws[n] ?? [], times) <= trial.limit) passed++;
  return passed / count;
}

/** The largest factor from 0 to `most` at which the yield is still 90 %; undefined when it is not even at 0. Common random numbers make the yield fall evenly enough to halve. */
function factorFor90(trial: Trial, timesAt: (factor: number) => readonly number[], most: number): number | undefined {
  const count = Math.min(3000, trial.draws.length);
  if (yieldOf(trial, timesAt(0), count) < WANTED) return undefined;
  let [low, high] = [0, most];
  for (let round = 0; round < 12; round++) {
    const middle = (low + high) / 2;
    if (yieldOf(trial, timesAt(middle), count) >= WANTED) low = middle;
    else high = middle;
  }
  return low;
}

/** Wilson's interval at 95 %. */
export function wilson(share: number, count: number): readonly [number, number] {
  const z = 1.959964;
  const bottom = 1 + z ** 2 / count;
  const middle = (share + z ** 2 / (2 * count)) / bottom;
  const half = (z / bottom) * Math.sqrt((share * (1 - share)) / count + z ** 2 / (4 * count ** 2));
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}

function trialOf({ model, vswr, samples = 20_000, seed = 1 }: YieldOptions): Trial {
  const freqHz = sweepFrequencies(model.lowHz, model.highHz, POINTS);
  const normal = normalRandom(seededRandom(seed));
  const draws = Array.from({ length: samples }, () => model.dimensions.map(normal));
  return { model, freqHz, rest: samplesAt(model.freqHz, model.rest, freqHz), draws, limit: magnitudeOfVswr(vswr) };
}

/**
 * The share of antennas that meet a VSWR over the band when every dimension is off at random: normal, independent of each other, half the
 * tolerance as standard deviation; the pieces of an array are all off alike. Monte Carlo on the model of `sensitivitiesOf`, in which the
 * parameters of the resonators are polynomials of second order in the dimensions; the seed fixes the answer.
 */
export async function yieldReport(options: YieldOptions): Promise<YieldReport> {
  const trial = trialOf(options);
  const { model, vswr, seed = 1 } = options;
  const all = model.dimensions.map(() => 1);
  const share = yieldOf(trial, all);
  const [low, high] = wilson(share, trial.draws.length);
  const checks = await checksOf(trial, options);
  const modelError =
    checks.length === 0
      ? undefined
      : Math.sqrt(checks.reduce((sum, { expected, solved }) => sum + (expected - solved) ** 2, 0) / checks.length);
  const withLimit = (limit: number) => yieldOf({ ...trial, limit }, all);
  return {
    vswr,
    samples: trial.draws.length,
    seed,
    yield: share,
    low,
    high,
    modelError,
    withModelError:
      modelError === undefined ? undefined : [withLimit(trial.limit - modelError), withLimit(trial.limit + modelError)],
    checks,
    shares: sharesOf(trial, share),
    allTimesFor90: factorFor90(trial, (factor) => all.map(() => factor), 4),
  };
}

function sharesOf(trial: Trial, present: number): readonly YieldShare[] {
  const { model, draws } = trial;
  const all = model.dimensions.map(() => 1);
  const worst = draws.slice(0, 5000).map((draw) => worstAt(trial, draw, all));
  const shares = model.dimensions.map(({ path, words, unit, tolerance }, d): YieldShare => {
    const only = (factor: number) => all.map((_, i) => (i === d ? factor : 1));
    const factor = present >= WANTED ? 1 : factorFor90(trial, only, 1);
    const perUnit = unit === 'm' ? 1000 : 1;
    return {
      path,
      words,
      tolerance: tolerance * perUnit,
      yieldIfExact: yieldOf(trial, only(0)),
      varianceShare: correlationSquared(
        worst,
        draws.map((draw) => draw[d] ?? 0),
      ),
      toleranceFor90: factor === undefined ? undefined : factor * tolerance * perUnit,
    };
  });
  return shares.sort((a, b) => b.yieldIfExact - a.yieldIfExact || b.varianceShare - a.varianceShare);
}

function correlationSquared(a: readonly number[], b: readonly number[]): number {
  const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const own = b.slice(0, a.length);
  const [ma, mb] = [meanOf(a), meanOf(own)];
  let [ab, aa, bb] = [0, 0, 0];
  a.forEach((value, i) => {
    const other = (own[i] ?? 0) - mb;
    ab += (value - ma) * other;
    aa += (value - ma) ** 2;
    bb += other ** 2;
  });
  return aa * bb === 0 ? 0 : (ab * ab) / (aa * bb);
}

/** Antennas near the limit tell most of how far the yield is off: of those drawn, the ones whose expected reflection is nearest to it. */
async function checksOf(trial: Trial, { checks }: YieldOptions): Promise<readonly YieldCheck[]> {
  if (checks === undefined) return [];
  const { model } = trial;
  const all = model.dimensions.map(() => 1);
  const near = trial.draws
    .slice(0, 400)
    .map((draw) => ({ draw, expected: worstAt(trial, draw, all) }))
    .sort((a, b) => Math.abs(a.expected - trial.limit) - Math.abs(b.expected - trial.limit))
    .slice(0, checks.count);
  const found: YieldCheck[] = [];
  for (const { draw, expected } of near) {
    const sizes = model.dimensions.map(({ path, nominal, tolerance, unit }, d): [string, number] => {
      const value = nominal + ((draw[d] ?? 0) * tolerance) / 2;
      return [path, unit === 'm' ? value * 1000 : value];
    });
    const response = await checks.solve(withDimensions(checks.design, Object.fromEntries(sizes)));
    const samples = samplesAt(response.freqHz, portReflection(response), trial.freqHz);
    found.push({ expected, solved: Math.max(...samples.map(({ re, im }) => Math.hypot(re, im))) });
  }
  return found;
}
