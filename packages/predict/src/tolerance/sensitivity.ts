import { type Design, type Dimension, dimensionsOf, withDimensions } from '@sheetwave/design';
import {
  type Complex,
  chainReflection,
  type DimensionSlope,
  type FrequencyBand,
  fitChain,
  magnitudeOfVswr,
  modelReflection,
  portFeatures,
  portReflection,
  type ResonatorChain,
  type Response,
  type ResponseModel,
  SPEED_OF_LIGHT,
  samplesAt,
  sweepFrequencies,
  vswrInBand,
} from '@sheetwave/rf';

/** What 0.1 mm of one dimension does to the antenna. */
export interface Sensitivity {
  readonly path: string;
  readonly words: string;
  readonly setBy: Dimension['setBy'];
  readonly unit: Dimension['unit'];
  /** mm, or plain. */
  readonly nominal: number;
  /** By how much it was changed each way, mm or plain. */
  readonly step: number;
  /** How far the whole curve moves along the frequency axis, MHz for 0.1 mm more (for 1 % more of a permittivity). */
  readonly mhzPerTenthMm: number;
  /** How much the worst reflection in the band grows, dB for 0.1 mm more. */
  readonly dbPerTenthMm: number;
  /** How far each dip of the reflection moves that was seen with both changes, MHz for 0.1 mm. */
  readonly resonances: readonly { readonly freqHz: number; readonly mhzPerTenthMm: number }[];
  /** Slope upward against slope downward, as a share of their mean: 0 for a straight line. */
  readonly bend: number;
  /** The same slope from half the step, as a share; only of the dimension that moves the curve most. */
  readonly halfStep: number | undefined;
}

export interface Sensitivities {
  readonly nominal: Response;
  readonly sensitivities: readonly Sensitivity[];
  readonly model: ResponseModel;
  /** Field solutions that it took. */
  readonly solves: number;
}

export interface SensitivityOptions {
  readonly solve: (design: Design) => Promise<Response>;
  /** Only these paths; default all. */
  readonly paths?: readonly string[] | undefined;
  readonly onSolve?: (done: number, all: number) => void;
  readonly signal?: AbortSignal | undefined;
}

/** A change of a length that moves a half-wave patch by about 1 %: well above what a mesh leaves, well below where lines bend. */
const STEP_PER_WAVELENGTH = 1 / 250;
const PERMITTIVITY_STEP = 0.02;

function stepOf(dimension: Dimension, wavelengthMm: number): number {
  if (dimension.unit === '') return PERMITTIVITY_STEP * dimension.nominal;
  return Math.min(wavelengthMm * STEP_PER_WAVELENGTH, dimension.nominal / 4);
}

/** The unit of the figures: 0.1 mm, or a hundredth of a permittivity. */
const unitOf = ({ unit, nominal }: Dimension): number => (unit === '' ? nominal / 100 : 0.1);

/**
 * How the response moves with each dimension that a tool, a spacer or a supplier sets: a field solution a step to each side (central
 * differences), all on meshes that follow the edges. Two for each dimension, one for the nominal design, two more at half the step
 * for the dimension that moves the curve most, to show that the step is neither too short for the mesh nor too long for a straight line,
 * and one with all dimensions off at once, by half their tolerance, to say how far the model is off there.
 *
 * Throws RangeError for a path that the design does not have, and what `solve` throws; undefined when the signal ended it.
 */
export async function sensitivitiesOf(design: Design, options: SensitivityOptions): Promise<Sensitivities | undefined> {
  const { paths, onSolve, signal } = options;
  const all = dimensionsOf(design);
  for (const path of paths ?? []) {
    if (!all.some((one) => one.path === path)) throw new RangeError(`The design has no dimension ${path}.`);
  }
  const chosen = paths === undefined ? all : all.filter(({ path }) => paths.includes(path));
  const expected = 2 * chosen.length + 4;
  let solves = 0;
  const solve = async (changed: Design): Promise<Response> => {
    const response = await options.solve(changed);
    solves += 1;
    onSolve?.(solves, expected);
    return response;
  };
  const nominal = await solve(design);
  const frame = frameOf(design, nominal);
  const pairs: Pair[] = [];
  for (const dimension of chosen) {
    if (signal?.aborted) return undefined;
    pairs.push(await pairAt({ design, dimension, step: stepOf(dimension, frame.wavelengthMm), solve }));
  }
  const rows = pairs.map((pair) => sensitivityOf(frame, pair));
  const checked = signal?.aborted ? rows : await withHalfStep({ frame, design, pairs, rows, solve });
  const model = modelOf(frame, pairs);
  const error = signal?.aborted ? undefined : await modelError({ design, model, solve });
  if (error === undefined) return undefined;
  return { nominal, sensitivities: checked, model: { ...model, error }, solves };
}

interface Frame {
  readonly band: FrequencyBand;
  readonly wavelengthMm: number;
  readonly nominal: Response;
  readonly chain: ResonatorChain;
  readonly atHz: readonly number[];
}

function frameOf(design: Design, nominal: Response): Frame {
  const { lowHz, highHz } = design.band;
  const centreHz = Math.sqrt(lowHz * highHz);
  const data = { freqHz: nominal.freqHz, reflection: portReflection(nominal), referenceOhm: nominal.referenceOhm };
  const fitted = (resonators: number) => fitChain(data, { centreHz, resonators });
  // One resonator a layer, or up to two more for a harness and modes that no layer stands for, where that leaves much less unsaid.
  let fit = fitted(Math.max(1, Math.min(design.layers.length, mostResonators(data.freqHz.length) - 1)));
  for (let more = 1; more <= 2 && fit.residual > 0.02; more++) {
    const next = (fit.chain.parameters.length - 2) / 4 + 1;
    if (next > mostResonators(data.freqHz.length)) break;
    const richer = fitted(next);
    if (richer.residual < 0.7 * fit.residual) fit = richer;
  }
  return {
    band: { lowHz, highHz },
    wavelengthMm: (1000 * SPEED_OF_LIGHT) / centreHz,
    nominal,
    chain: fit.chain,
    atHz: sweepFrequencies(lowHz, highHz, 41),
  };
}

/** How many a number of frequencies can tell. */
const mostResonators = (frequencies: number): number => Math.floor((frequencies - 2) / 4);

interface Pair {
  readonly dimension: Dimension;
  readonly step: number;
  readonly more: Response;
  readonly less: Response;
}

interface PairPlace {
  readonly design: Design;
  readonly dimension: Dimension;
  readonly step: number;
  readonly solve: (design: Design) => Promise<Response>;
}

async function pairAt({ design, dimension, step, solve }: PairPlace): Promise<Pair> {
  const at = (value: number) => solve(withDimensions(design, { [dimension.path]: value }));
  const more = await at(dimension.nominal + step);
  const less = await at(dimension.nominal - step);
  return { dimension, step, more, less };
}

const bandSamples = (response: Response, atHz: readonly number[]): readonly Complex[] =>
  samplesAt(response.freqHz, portReflection(response), atHz);

/**
 * How far a curve has moved along the frequency axis, as a share of the frequency: the share that explains most of the difference,
 * S(f/(1 + share)) for S(f), by least squares over the band (Gauss-Newton, from none). It needs no dip to be told from the next.
 */
function curveShare(from: Response, to: Response, atHz: readonly number[]): number {
  const apartHz = (atHz[1] ?? 0) - (atHz[0] ?? 0);
  const wanted = bandSamples(to, atHz);
  let share = 0;
  for (let round = 0; round < 8; round++) {
    const at = (beside: number) =>
      bandSamples(
        from,
        atHz.map((f) => f / (1 + share) + beside),
      );
    const [here, up, down] = [at(0), at(apartHz / 2), at(-apartHz / 2)];
    let above = 0;
    let below = 0;
    wanted.forEach((value, k) => {
      const perShare = (atHz[k] ?? 0) / apartHz;
      const re = ((up[k]?.re ?? 0) - (down[k]?.re ?? 0)) * perShare;
      const im = ((up[k]?.im ?? 0) - (down[k]?.im ?? 0)) * perShare;
      above -= re * (value.re - (here[k]?.re ?? 0)) + im * (value.im - (here[k]?.im ?? 0));
      below += re * re + im * im;
    });
    if (below === 0) return 0;
    share += above / below;
  }
  return share;
}

function differences(a: readonly Complex[], b: readonly Complex[]): readonly Complex[] {
  return a.map((value, k) => ({ re: value.re - (b[k]?.re ?? 0), im: value.im - (b[k]?.im ?? 0) }));
}

function worstDb(response: Response, band: FrequencyBand): number {
  const worst = vswrInBand(response, band)?.worst.vswr ?? Number.POSITIVE_INFINITY;
  return 20 * Math.log10(Number.isFinite(worst) ? magnitudeOfVswr(worst) : 1);
}

/** Shift of the curve per unit of the dimension, Hz, upward and downward. */
function slopesOf(frame: Frame, { more, less, step }: Pair): { readonly up: number; readonly down: number } {
  const centreHz = frame.chain.centreHz;
  const shift = (to: Response) => (curveShare(frame.nominal, to, frame.atHz) * centreHz) / step;
  return { up: shift(more), down: -shift(less) };
}

function sensitivityOf(frame: Frame, pair: Pair): Sensitivity {
  const { dimension, step, more, less } = pair;
  const { path, words, setBy, unit, nominal } = dimension;
  const { up, down } = slopesOf(frame, pair);
  const mean = (up + down) / 2;
  const share = unitOf(dimension);
  return {
    path,
    words,
    setBy,
    unit,
    nominal,
    step,
    mhzPerTenthMm: (mean * share) / 1e6,
    dbPerTenthMm: ((worstDb(more, frame.band) - worstDb(less, frame.band)) / (2 * step)) * share,
    resonances: dipSlopes(frame, pair, share),
    bend: mean === 0 ? 0 : Math.abs(up - down) / Math.abs(mean),
    halfStep: undefined,
  };
}

/** Dips shallower than this come and go. */
const LEAST_DIP = 0.02;

function dipSlopes(frame: Frame, { more, less, step }: Pair, share: number): Sensitivity['resonances'] {
  const dips = (response: Response) =>
    portFeatures(response, { leastDip: LEAST_DIP }).leastReflections.map(({ freqHz }) => freqHz);
  const [here, high, low] = [dips(frame.nominal), dips(more), dips(less)];
  if (here.length !== high.length || here.length !== low.length) return [];
  return here.map((freqHz, i) => ({
    freqHz,
    mhzPerTenthMm: ((((high[i] ?? 0) - (low[i] ?? 0)) / (2 * step)) * share) / 1e6,
  }));
}

interface HalfStep {
  readonly frame: Frame;
  readonly design: Design;
  readonly pairs: readonly Pair[];
  readonly rows: readonly Sensitivity[];
  readonly solve: (design: Design) => Promise<Response>;
}

async function withHalfStep({ frame, design, pairs, rows, solve }: HalfStep): Promise<readonly Sensitivity[]> {
  const sizes = rows.map(({ mhzPerTenthMm }) => Math.abs(mhzPerTenthMm));
  const index = sizes.indexOf(Math.max(...sizes));
  const pair = pairs[index];
  if (pair === undefined) return rows;
  const half = slopesOf(frame, await pairAt({ design, dimension: pair.dimension, step: pair.step / 2, solve }));
  const full = slopesOf(frame, pair);
  const halfStep = Math.abs((half.up + half.down) / (full.up + full.down) - 1);
  return rows.map((row, i) => (i === index ? { ...row, halfStep } : row));
}

/** Chains of the changed designs, each begun at the nominal one so that they stay comparable, and what their parameters say of the slopes. */
function modelOf(frame: Frame, pairs: readonly Pair[]): ResponseModel {
  const { nominal, chain, band } = frame;
  const flat = chainReflection(chain, nominal.freqHz);
  const reflection = portReflection(nominal);
  const rest = reflection.map((s, k) => ({ re: s.re - (flat[2 * k] ?? 0), im: s.im - (flat[2 * k + 1] ?? 0) }));
  return {
    ...band,
    chain,
    freqHz: nominal.freqHz,
    rest,
    dimensions: pairs.map((pair) => slopeOf(frame, rest, pair)),
    error: 0,
  };
}

interface Checked {
  readonly design: Design;
  readonly model: ResponseModel;
  readonly solve: (design: Design) => Promise<Response>;
}

/** Every second dimension larger and the others smaller, by a standard deviation: what the model misses then, root mean square over the band. */
async function modelError({ design, model, solve }: Checked): Promise<number> {
  const changes = Object.fromEntries(
    model.dimensions.map(({ path, tolerance }, d): [string, number] => [
      path,
      ((d % 2 === 0 ? 1 : -1) * tolerance) / 2,
    ]),
  );
  const sizes = model.dimensions.map(({ path, nominal, unit }): [string, number] => [
    path,
    (nominal + (changes[path] ?? 0)) * (unit === 'm' ? 1000 : 1),
  ]);
  const response = await solve(withDimensions(design, Object.fromEntries(sizes)));
  const atHz = sweepFrequencies(model.lowHz, model.highHz, 41);
  const missed = differences(bandSamples(response, atHz), modelReflection(model, changes, atHz));
  return Math.sqrt(missed.reduce((sum, { re, im }) => sum + re * re + im * im, 0) / missed.length);
}

function slopeOf(
  { chain, nominal }: Frame,
  rest: readonly Complex[],
  { dimension, step, more, less }: Pair,
): DimensionSlope {
  const { path, words, setBy, unit, tolerance } = dimension;
  const perUnit = unit === 'mm' ? 1000 : 1;
  const count = (chain.parameters.length - 2) / 4;
  const parametersOf = (response: Response): readonly number[] => {
    // What the chain leaves unsaid of the nominal design is taken off first: it stays where it is.
    const reflection = differences(portReflection(response), samplesAt(nominal.freqHz, rest, response.freqHz));
    const data = { freqHz: response.freqHz, reflection, referenceOhm: response.referenceOhm };
    return fitChain(data, { centreHz: chain.centreHz, resonators: count, near: chain.parameters }).chain.parameters;
  };
  const [high, low] = [parametersOf(more), parametersOf(less)];
  return {
    path,
    words,
    setBy,
    unit: unit === 'mm' ? 'm' : '',
    nominal: dimension.nominal / perUnit,
    tolerance: tolerance.plusMinus / perUnit,
    slopes: chain.parameters.map((_, i) => (((high[i] ?? 0) - (low[i] ?? 0)) / (2 * step)) * perUnit),
    bends: chain.parameters.map(
      (value, i) => (((high[i] ?? 0) + (low[i] ?? 0) - 2 * value) / (2 * step ** 2)) * perUnit ** 2,
    ),
  };
}
