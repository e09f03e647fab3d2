import {
  type Complex,
  chainReflection,
  type DimensionChanges,
  fitLeastSquares,
  type ResponseModel,
  samplesAt,
} from '@sheetwave/rf';

/** One sweep of the antenna, and what had been done to it by then. */
export interface TrimSweep {
  /** Hz, rising. */
  readonly freqHz: readonly number[];
  /** At the coax, in the reference impedance of the model; the cable taken off as far as it is known. */
  readonly reflection: readonly Complex[];
  /** Everything changed on purpose since the design was cut, in all, by path: m, or plain. */
  readonly changes: DimensionChanges;
}

/** Sizes read off with a caliper, by path: m, the reading itself. */
export type Readings = Readonly<Record<string, number>>;

/** What the sweeps say of the antenna as it was built. */
export interface AsBuilt {
  readonly dimensions: readonly AsBuiltDimension[];
  /** How far the model resonates too low, as a share: what is left of mesh, materials and surroundings. */
  readonly frequencyShare: number;
  /** How much more (or less) a change does than the model says, by path, 1 for as much; only of dimensions that were changed. */
  readonly slopeTimes: Readonly<Record<string, number>>;
  /** Of what is left of the cable in each sweep, s, there and back. */
  readonly delayS: readonly number[];
  /** Root mean square of measured less fitted reflection, of each sweep. */
  readonly residual: readonly number[];
  /** Mean and covariance of everything that was fitted, for `drawAsBuilt`. */
  readonly mean: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}

export interface AsBuiltDimension {
  readonly path: string;
  readonly words: string;
  /** Built less nominal, m or plain, and its standard deviation. */
  readonly error: number;
  readonly deviation: number;
}

/** What a solver of this kind leaves in a resonance: 0.2 to 0.5 % (published comparisons of time-domain solvers with measured patches; memory). */
const FREQUENCY_SHARE = 0.004;
/** Slopes by central differences of the same solver. */
const SLOPE_SHARE = 0.1;
/** A cable that was taken off is known to this, there and back: 3 mm of air line each way. */
const DELAY_S = 20e-12;
const PHASE = 0.05;
/** A caliper in a hand. */
const READING_M = 20e-6;
/** Points of a sweep that count: errors of a model are alike at neighbouring frequencies. */
const POINTS = 41;
/** What model and instrument leave in each point, as a difference of reflection. */
const SPREAD = 0.03;

/** Where each unknown stands among the parameters of the fit. */
export interface Unknowns {
  readonly dimensions: number;
  /** Paths of dimensions that were changed, whose slopes are fitted. */
  readonly changed: readonly string[];
  readonly sweeps: number;
}

export function unknownsOf(model: ResponseModel, sweeps: readonly TrimSweep[]): Unknowns {
  const changed = model.dimensions
    .map(({ path }) => path)
    .filter((path) => sweeps.some(({ changes }) => (changes[path] ?? 0) !== 0));
  return { dimensions: model.dimensions.length, changed, sweeps: sweeps.length };
}

/** Parameters of the fit: dimension errors over their prior deviation, then frequency, slopes, and delay and phase of each sweep, likewise. */
const lengthOf = ({ dimensions, changed, sweeps }: Unknowns): number => dimensions + 1 + changed.length + 2 * sweeps;

/** Half the tolerance, or what the caliper leaves. */
function priorOf(
  model: ResponseModel,
  readings: Readings,
): readonly { readonly mean: number; readonly deviation: number }[] {
  return model.dimensions.map(({ path, nominal, tolerance }) => {
    const read = readings[path];
    return read === undefined ? { mean: 0, deviation: tolerance / 2 } : { mean: read - nominal, deviation: READING_M };
  });
}

/** The antenna as imagined: how far each dimension is off, m or plain, with the changes made so far on top. */
export interface Imagined {
  readonly errors: readonly number[];
  readonly frequencyShare: number;
  readonly slopeTimes: Readonly<Record<string, number>>;
}

/** Its reflection at the coax after these changes. */
export function imaginedReflection(
  model: ResponseModel,
  imagined: Imagined,
  changes: DimensionChanges,
  freqHz: readonly number[],
): readonly Complex[] {
  const parameters = [...model.chain.parameters];
  model.dimensions.forEach(({ path, slopes, bends }, d) => {
    const move = (imagined.errors[d] ?? 0) + (changes[path] ?? 0) * (imagined.slopeTimes[path] ?? 1);
    for (let i = 0; i < parameters.length; i++) {
      parameters[i] = (parameters[i] ?? 0) + (slopes[i] ?? 0) * move + (bends[i] ?? 0) * move * move;
    }
  });
  const scaled = freqHz.map((f) => f / (1 + imagined.frequencyShare));
  const flat = chainReflection({ ...model.chain, parameters }, scaled);
  return samplesAt(model.freqHz, model.rest, scaled).map(({ re, im }, k) => ({
    re: re + (flat[2 * k] ?? 0),
    im: im + (flat[2 * k + 1] ?? 0),
  }));
}

/** Imagined antenna of a set of fitted parameters. */
export function imaginedOf(
  model: ResponseModel,
  unknowns: Unknowns,
  readings: Readings,
  parameters: readonly number[],
): Imagined {
  const priors = priorOf(model, readings);
  const { dimensions, changed } = unknowns;
  return {
    errors: priors.map(({ mean, deviation }, d) => mean + deviation * (parameters[d] ?? 0)),
    frequencyShare: FREQUENCY_SHARE * (parameters[dimensions] ?? 0),
    slopeTimes: Object.fromEntries(
      changed.map((path, i) => [path, 1 + SLOPE_SHARE * (parameters[dimensions + 1 + i] ?? 0)]),
    ),
  };
}

interface Thinned {
  readonly freqHz: readonly number[];
  readonly reflection: readonly Complex[];
}

/** As many points as count, evenly over what sweep and model both cover. Throws RangeError when that is less than the model's band. */
function thinned(sweep: TrimSweep, model: ResponseModel): Thinned {
  const low = Math.max(sweep.freqHz[0] ?? Number.NaN, model.freqHz[0] ?? Number.NaN);
  const high = Math.min(sweep.freqHz.at(-1) ?? Number.NaN, model.freqHz.at(-1) ?? Number.NaN);
  if (!(low <= model.lowHz && high >= model.highHz)) {
    throw new RangeError('The sweep must cover the band of the design.');
  }
  // A share of a per cent is kept for the frequency scale, so that nothing is read beyond the model.
  const freqHz = Array.from({ length: POINTS }, (_, i) => low * 1.01 + ((high * 0.99 - low * 1.01) * i) / (POINTS - 1));
  return { freqHz, reflection: samplesAt(sweep.freqHz, sweep.reflection, freqHz) };
}

/**
 * Which errors of the dimensions explain the sweeps best, given what the workshop holds: the most probable ones (Bayes' rule with normal
 * priors, a linearised posterior; Tarantola, Inverse Problem Theory, SIAM 2005, ch. 3; memory). Each further sweep makes the model agree
 * better with this antenna: a frequency scale, how much the dimensions that were changed really do, and what is left of the cable
 * are fitted with it.
 *
 * Throws RangeError without a sweep, and for a sweep that does not cover the band.
 */
export function asBuilt(model: ResponseModel, sweeps: readonly TrimSweep[], readings: Readings = {}): AsBuilt {
  if (sweeps.length === 0) throw new RangeError('There must be a sweep.');
  const unknowns = unknownsOf(model, sweeps);
  const data = sweeps.map((sweep) => thinned(sweep, model));
  const centreHz = Math.sqrt(model.lowHz * model.highHz);
  const missesOf = (parameters: readonly number[]): readonly (readonly number[])[] => {
    const imagined = imaginedOf(model, unknowns, readings, parameters);
    return data.map(({ freqHz, reflection }, n) => {
      const [delay, phase] = cableOf(unknowns, parameters, n);
      const found = imaginedReflection(model, imagined, sweeps[n]?.changes ?? {}, freqHz);
      return reflection.flatMap((s, k) => {
        const angle = -2 * Math.PI * ((freqHz[k] ?? 0) - centreHz) * delay + phase;
        const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
        const { re, im } = found[k] ?? { re: 0, im: 0 };
        return [s.re - (re * cos - im * sin), s.im - (re * sin + im * cos)];
      });
    });
  };
  const start = Array.from({ length: lengthOf(unknowns) }, () => 0);
  const fit = fitLeastSquares({
    start,
    scales: start.map(() => 1),
    residuals: (parameters) => [
      ...missesOf(parameters)
        .flat()
        .map((miss) => miss / SPREAD),
      ...parameters,
    ],
  });
  const imagined = imaginedOf(model, unknowns, readings, fit.parameters);
  const priors = priorOf(model, readings);
  return {
    dimensions: model.dimensions.map(({ path, words }, d) => ({
      path,
      words,
      error: imagined.errors[d] ?? 0,
      deviation: (priors[d]?.deviation ?? 0) * Math.sqrt(Math.max(0, fit.covariance[d]?.[d] ?? 0)),
    })),
    frequencyShare: imagined.frequencyShare,
    slopeTimes: imagined.slopeTimes,
    delayS: sweeps.map((_, n) => cableOf(unknowns, fit.parameters, n)[0]),
    residual: missesOf(fit.parameters).map((misses) =>
      Math.sqrt((2 * misses.reduce((sum, m) => sum + m * m, 0)) / misses.length),
    ),
    mean: fit.parameters,
    covariance: fit.covariance,
  };
}

function cableOf(
  { dimensions, changed }: Unknowns,
  parameters: readonly number[],
  sweep: number,
): readonly [delayS: number, phase: number] {
  const at = dimensions + 1 + changed.length + 2 * sweep;
  return [DELAY_S * (parameters[at] ?? 0), PHASE * (parameters[at + 1] ?? 0)];
}
