import {
  type Complex,
  type DimensionChanges,
  type DimensionSlope,
  magnitudeOfVswr,
  modelReflection,
  type ResponseModel,
  samplesAt,
  sweepFrequencies,
  vswr,
} from '@sheetwave/rf';
import {
  type AsBuilt,
  asBuilt,
  type Imagined,
  imaginedOf,
  imaginedReflection,
  type Readings,
  type TrimSweep,
  unknownsOf,
} from './as-built.ts';
import { spreadPoints } from './draws.ts';

/** How a change is made. `take-off`: file or saw; `widen`: a slot; `other-spacer`, `other-place`: a new hole for the feed; `re-cut`: a new part, since nothing can be put on. */
export type TrimWay = 'take-off' | 'widen' | 'other-spacer' | 'other-place' | 're-cut';

/** One dimension changed alone. */
export interface TrimOption {
  readonly path: string;
  readonly words: string;
  readonly way: TrimWay;
  /** Change that is expected to do best, m, from the antenna as it is now; and its standard deviation. */
  readonly change: number;
  readonly deviation: number;
  /** Size it should have in the end by the tool's reckoning, m. */
  readonly size: number;
  /** Largest VSWR over the band expected then. */
  readonly vswr: number;
  /** How far the reflection over the band is then from that of the antenna as drawn, root mean square. */
  readonly apart: number;
  /** True when it takes back an error that the sweeps show. */
  readonly undoes: boolean;
}

/** What to do next. */
export interface TrimStep {
  readonly option: TrimOption;
  /** What to do now: all of the change, or half of it and then measure again. */
  readonly change: number;
  readonly half: boolean;
}

/** A curve with what is not known of it. */
export interface ExpectedCurve {
  readonly freqHz: readonly number[];
  readonly reflection: readonly Complex[];
  /** Magnitude, two standard deviations to each side. */
  readonly least: readonly number[];
  readonly most: readonly number[];
}

export interface TrimAdvice {
  readonly asBuilt: AsBuilt;
  /** Largest VSWR over the band, as last measured and as the fitted model has it. */
  readonly measuredVswr: number;
  readonly fittedVswr: number;
  readonly wantedVswr: number;
  /** `done`: it meets the target as measured; `trim`: a step that a file, a slot, a spacer or a hole can make; `re-cut`: only a new part helps; `no-help`: no single change does. */
  readonly verdict: 'done' | 'trim' | 're-cut' | 'no-help';
  readonly step: TrimStep | undefined;
  /** All that help, the best first. */
  readonly options: readonly TrimOption[];
  /** After the step; as it is now when there is none. */
  readonly expected: ExpectedCurve;
  /** Plain sentences about what to mind. */
  readonly warnings: readonly string[];
}

export interface TrimCase {
  readonly model: ResponseModel;
  /** The oldest first; the last one is the antenna as it is now. At least one. */
  readonly sweeps: readonly TrimSweep[];
  readonly readings?: Readings;
  readonly wantedVswr: number;
}

const POINTS = 41;
/** No dimension is changed by more than this share of its size in one go. */
const MOST_SHARE = 0.12;
/** Smaller steps are below what a file and a caliper do. */
const LEAST_CHANGE_M = 30e-6;
/** A step that is known to this, or to this share of itself, need not be halved once it was sharpened by a second sweep. */
const SURE_M = 80e-6;
const UNSURE = 1 / 3;
/** More than a solver leaves in a resonance. */
const FAR_SHARE = 0.009;
/** Fits worse than this are not of this antenna. */
const DOUBTFUL = 0.08;

interface Bench {
  readonly model: ResponseModel;
  readonly now: DimensionChanges;
  readonly mean: Imagined;
  readonly draws: readonly Imagined[];
  readonly atHz: readonly number[];
  /** Reflection of the antenna as drawn. */
  readonly drawn: readonly Complex[];
}

const largest = (samples: readonly Complex[]): number => Math.max(...samples.map(({ re, im }) => Math.hypot(re, im)));
const vswrOf = (reflection: number): number => vswr(Math.min(0.9999, reflection));

interface After {
  readonly worst: number;
  readonly apart: number;
}

function after({ model, now, atHz, drawn }: Bench, imagined: Imagined, path: string, change: number): After {
  const samples = imaginedReflection(model, imagined, { ...now, [path]: (now[path] ?? 0) + change }, atHz);
  const squares = samples.map(({ re, im }, k) => (re - (drawn[k]?.re ?? 0)) ** 2 + (im - (drawn[k]?.im ?? 0)) ** 2);
  return {
    worst: largest(samples),
    apart: Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length),
  };
}

/**
 * The model is a field solution where the antenna is as drawn, and straight lines elsewhere: a change that leads back there is believed more
 * than one that makes up for an error by another.
 */
const PER_APART = 0.25;
const costOf = ({ worst, apart }: After): number => worst + PER_APART * apart;

/** Smallest of a function between two ends: the best of a row of points, then golden sections around it. */
function lowest(cost: (x: number) => number, low: number, high: number): number {
  const count = 24;
  const points = Array.from({ length: count + 1 }, (_, i) => low + ((high - low) * i) / count);
  const costs = points.map(cost);
  const best = costs.indexOf(Math.min(...costs));
  let [a, b] = [points[Math.max(0, best - 1)] ?? low, points[Math.min(count, best + 1)] ?? high];
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let round = 0; round < 24; round++) {
    const [c, d] = [b - golden * (b - a), a + golden * (b - a)];
    if (cost(c) < cost(d)) b = d;
    else a = c;
  }
  return (a + b) / 2;
}

/** Which changes a tool can make; undefined for what came so. */
function rangeOf({ setBy, nominal }: DimensionSlope, mayGrow: boolean): readonly [number, number] | undefined {
  const most = MOST_SHARE * nominal;
  switch (setBy) {
    case 'cut':
      return mayGrow ? [-most, most] : [-most, 0];
    case 'open':
      return mayGrow ? [-most, most] : [0, most];
    case 'spacer':
    case 'drill':
      return [-2 * most, 2 * most];
    case 'bend':
    case 'stock':
      return undefined;
  }
}

function wayOf({ setBy }: DimensionSlope, change: number): TrimWay {
  if (setBy === 'spacer') return 'other-spacer';
  if (setBy === 'drill') return 'other-place';
  if (setBy === 'open') return change > 0 ? 'widen' : 're-cut';
  return change < 0 ? 'take-off' : 're-cut';
}

function optionOf(bench: Bench, built: AsBuilt, dimension: DimensionSlope, mayGrow: boolean): readonly TrimOption[] {
  const range = dimension.unit === 'm' ? rangeOf(dimension, mayGrow) : undefined;
  if (range === undefined) return [];
  const { path, words, nominal } = dimension;
  const best = (imagined: Imagined) => lowest((change) => costOf(after(bench, imagined, path, change)), ...range);
  const change = best(bench.mean);
  if (Math.abs(change) < LEAST_CHANGE_M) return [];
  const deviations = bench.draws.map((draw) => (best(draw) - change) ** 2);
  const deviation = Math.sqrt(deviations.reduce((sum, square) => sum + square, 0) / Math.max(1, deviations.length));
  const { error = 0, deviation: doubt = 0 } = built.dimensions.find((one) => one.path === path) ?? {};
  const size = nominal + error + (bench.now[path] ?? 0) + change;
  const { worst, apart } = after(bench, bench.mean, path, change);
  return [
    {
      path,
      words,
      way: wayOf(dimension, change),
      change,
      deviation,
      size,
      vswr: vswrOf(worst),
      apart,
      undoes: Math.abs(error) > 2 * doubt && error * change < 0,
    },
  ];
}

/** Halved when it is not sure, and on the first sweep in any case: what is off stays off. */
function stepOf(option: TrimOption, sweeps: number): TrimStep {
  const final = option.way === 'other-spacer' || option.way === 'other-place' || option.way === 're-cut';
  const half =
    !final &&
    Math.abs(option.change) > 2 * LEAST_CHANGE_M &&
    (sweeps < 2 || option.deviation > Math.max(SURE_M, UNSURE * Math.abs(option.change)));
  return { option, half, change: half ? option.change / 2 : option.change };
}

/** An option must take a tenth off what is too much reflection to be worth its work. */
const WORTH = 0.9;
/** A new part or a new hole must do this much better than a file to be preferred. */
const EXTRA_WORK: Readonly<Record<TrimWay, number>> = {
  'take-off': 1,
  widen: 1,
  'other-spacer': 1.1,
  'other-place': 1.15,
  're-cut': 1.25,
};

/** Taking back an error is surer than making up for it. */
const UNDOING = 0.75;

/** What meets the target comes first, the least work before the rest; then what comes nearest to it for its work. */
function ranked(options: readonly TrimOption[], nowReflection: number, wantedVswr: number): readonly TrimOption[] {
  const reflectionOf = (option: TrimOption) => magnitudeOfVswr(option.vswr);
  const meets = (option: TrimOption) => option.vswr <= wantedVswr;
  return options
    .filter((option) => reflectionOf(option) < WORTH * nowReflection)
    .sort((a, b) => {
      if (meets(a) !== meets(b)) return meets(a) ? -1 : 1;
      if (meets(a) && a.way !== b.way) return EXTRA_WORK[a.way] - EXTRA_WORK[b.way];
      const cost = (option: TrimOption) =>
        costOf({ worst: reflectionOf(option), apart: option.apart }) *
        EXTRA_WORK[option.way] *
        (option.undoes ? UNDOING : 1);
      return cost(a) - cost(b);
    });
}

function curveOf(bench: Bench, step: TrimStep | undefined): ExpectedCurve {
  const { model, now, atHz, mean, draws } = bench;
  const changes = step ? { ...now, [step.option.path]: (now[step.option.path] ?? 0) + step.change } : now;
  const at = (imagined: Imagined) => imaginedReflection(model, imagined, changes, atHz);
  const reflection = at(mean);
  const sizes = (samples: readonly Complex[]) => samples.map(({ re, im }) => Math.hypot(re, im));
  const middle = sizes(reflection);
  const others = draws.map((draw) => sizes(at(draw)));
  const deviation = middle.map((size, k) =>
    Math.sqrt(others.reduce((sum, other) => sum + ((other[k] ?? 0) - size) ** 2, 0) / Math.max(1, others.length)),
  );
  return {
    freqHz: atHz,
    reflection,
    least: middle.map((size, k) => Math.max(0, size - 2 * (deviation[k] ?? 0))),
    most: middle.map((size, k) => Math.min(1, size + 2 * (deviation[k] ?? 0))),
  };
}

/**
 * What to change so that the antenna as measured meets its VSWR over the band: which dimension, which way, how far, and what curve to
 * expect. Material can only be taken off: where the resonance must go down, the other ways come first, and the size at which the
 * part would have to be cut anew. The first cut takes half of what is reckoned; each further sweep sharpens the model (`asBuilt`).
 *
 * Throws RangeError without a sweep, for a sweep that does not cover the band and for a path that is not in the model.
 */
export function trimAdvice({ model, sweeps, readings = {}, wantedVswr }: TrimCase): TrimAdvice {
  const built = asBuilt(model, sweeps, readings);
  const unknowns = unknownsOf(model, sweeps);
  const imagine = (parameters: readonly number[]) => imaginedOf(model, unknowns, readings, parameters);
  const last = sweeps.at(-1);
  const atHz = sweepFrequencies(model.lowHz, model.highHz, POINTS);
  const bench: Bench = {
    model,
    now: last?.changes ?? {},
    mean: imagine(built.mean),
    draws: spreadPoints(built.mean, built.covariance).map(imagine),
    atHz,
    drawn: modelReflection(model, {}, atHz),
  };
  const measured = largest(samplesAt(last?.freqHz ?? [], last?.reflection ?? [], atHz));
  const fitted = largest(imaginedReflection(model, bench.mean, bench.now, atHz));
  const options = optionsOf(bench, built, { fitted, wantedVswr });
  const done = measured <= magnitudeOfVswr(wantedVswr);
  const best = done ? undefined : options[0];
  const step = best && stepOf(best, sweeps.length);
  const verdict = done ? 'done' : best === undefined ? 'no-help' : best.way === 're-cut' ? 're-cut' : 'trim';
  return {
    asBuilt: built,
    measuredVswr: vswrOf(measured),
    fittedVswr: vswrOf(fitted),
    wantedVswr,
    verdict,
    step,
    options,
    expected: curveOf(bench, step),
    warnings: warningsOf(built, model, fitted, measured),
  };
}

/** Each dimension with what a tool can do to it, and, where a part could only be cut anew to be larger, that too. */
function optionsOf(bench: Bench, built: AsBuilt, goal: { fitted: number; wantedVswr: number }): readonly TrimOption[] {
  const { dimensions } = bench.model;
  const possible = dimensions.flatMap((dimension) => optionOf(bench, built, dimension, false));
  const anew = dimensions
    .filter(({ setBy }) => setBy === 'cut' || setBy === 'open')
    .flatMap((dimension) => optionOf(bench, built, dimension, true))
    .filter(({ way }) => way === 're-cut');
  return ranked([...possible, ...anew], goal.fitted, goal.wantedVswr);
}

function warningsOf(built: AsBuilt, model: ResponseModel, fitted: number, measured: number): readonly string[] {
  const worst = Math.max(...built.residual);
  const misfit =
    worst > DOUBTFUL
      ? [
          `The sweep differs from any antenna of this design by ${worst.toFixed(2)} of the reflection: look for a bad joint, a wrong part, the wrong file, or a calibration that is off, before you cut.`,
        ]
      : [];
  const wide = model.dimensions.flatMap(({ words, tolerance }, d) => {
    const error = built.dimensions[d]?.error ?? 0;
    return Math.abs(error) > 1.5 * tolerance
      ? [
          `The ${words} would have to be off by ${(1000 * error).toFixed(2)} mm, more than the workshop should leave: measure it.`,
        ]
      : [];
  });
  const share = built.frequencyShare;
  const apart =
    Math.abs(share) > FAR_SHARE
      ? [
          `The antenna resonates ${(100 * Math.abs(share)).toFixed(1)} % ${share < 0 ? 'lower' : 'higher'} than the model even with sizes as far off as the workshop allows: measure the sizes and give them (--measured), and look at what stands near the antenna.`,
        ]
      : [];
  const far =
    Math.abs(fitted - measured) > 0.08
      ? ['The fitted curve misses the worst place of the measured one: take its advice with care.']
      : [];
  return [...misfit, ...apart, ...wide, ...far];
}
