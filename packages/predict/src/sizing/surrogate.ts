import { type Complex, chainReflection, chainScales, type ResonatorChain, solveSymmetric } from '@sheetwave/rf';

/** A field solution as the surrogate keeps it. */
export interface Sample {
  /** In units of the variables' scales. */
  readonly point: readonly number[];
  readonly chain: ResonatorChain;
  /** Field solution at the frequencies of the band. */
  readonly reflection: readonly Complex[];
  /** Field solution less chain, at the same frequencies. */
  readonly rest: readonly Complex[];
  readonly gainDbi: number | undefined;
}

/** How the parameters of the chain follow the variables, around one sample. */
export interface Surrogate {
  readonly base: Sample;
  /** One row for each parameter: change per unit of each variable. */
  readonly slopes: readonly (readonly number[])[];
  readonly gainSlopes: readonly number[];
  /** How what the chain leaves unsaid changes per unit of each variable: real and imaginary part in turn for each frequency of the band. */
  readonly restSlopes: readonly Float64Array[];
}

const distance = (a: readonly number[], b: readonly number[]): number =>
  Math.hypot(...a.map((value, i) => value - (b[i] ?? 0)));

/** How sure the slopes of the closed forms are, as a share, and of nothing, in scales of a parameter per unit of a variable. */
const PRIOR_SHARE = 0.4;
const PRIOR_SPREAD = 0.6;
/** What a chain of a few resonators leaves unsaid of a sample, in scales of a parameter. */
const SAMPLE_SPREAD = 0.2;
/** A chain that fits what was solved may pass 1 by a hair. */
const MOST_REFLECTION = 1.05;
/** Gain: dB per unit of a variable, and what a sample is sure to. */
const GAIN_SPREAD = 0.15;
const GAIN_SAMPLE = 0.02;

interface Regression {
  readonly moves: readonly (readonly number[])[];
  readonly changes: readonly number[];
  readonly weights: readonly number[];
  readonly prior: readonly number[];
  readonly spreads: readonly number[];
  readonly spread: number;
}

/** Bayesian linear regression without an offset: the slopes that agree best with the samples and with what was expected before. */
function regress({ moves, changes, weights, prior, spreads, spread }: Regression): readonly number[] {
  const n = prior.length;
  const normal = Array.from({ length: n }, (_, i) =>
    Array.from({ length: n }, (_, j) => {
      const own = i === j ? 1 / (spreads[i] ?? 1) ** 2 : 0;
      return moves.reduce(
        (sum, move, k) => sum + ((weights[k] ?? 0) * (move[i] ?? 0) * (move[j] ?? 0)) / spread ** 2,
        own,
      );
    }),
  );
  const right = Array.from({ length: n }, (_, i) =>
    moves.reduce(
      (sum, move, k) => sum + ((weights[k] ?? 0) * (move[i] ?? 0) * (changes[k] ?? 0)) / spread ** 2,
      (prior[i] ?? 0) / (spreads[i] ?? 1) ** 2,
    ),
  );
  return solveSymmetric(normal, [right])?.[0] ?? prior;
}

/**
 * The surrogate around one sample: it is that field solution there, and around it a chain of resonators whose parameters follow the
 * variables in straight lines. The slopes begin as those of the closed forms and are learned from the other samples, near ones most.
 */
export function surrogateAround(
  base: Sample,
  samples: readonly Sample[],
  priorSlopes: readonly (readonly number[])[],
  bandHz: readonly number[],
): Surrogate {
  const others = samples.filter((sample) => sample !== base && distance(sample.point, base.point) > 1e-9);
  const moves = others.map((sample) => sample.point.map((value, i) => value - (base.point[i] ?? 0)));
  // A sample three units away tells of the bend of the curve more than of its slope here.
  const weights = moves.map((move) => 1 / (1 + (Math.hypot(...move) / 1.5) ** 4));
  const scales = chainScales((base.chain.parameters.length - 2) / 4);
  const slopes = base.chain.parameters.map((value, row) => {
    const scale = scales[row] ?? 1;
    const prior = priorSlopes[row] ?? base.point.map(() => 0);
    return regress({
      moves,
      weights,
      changes: others.map((sample) => (sample.chain.parameters[row] ?? 0) - value),
      prior,
      spreads: prior.map((slope) => PRIOR_SHARE * Math.abs(slope) + PRIOR_SPREAD * scale),
      spread: SAMPLE_SPREAD * scale,
    });
  });
  const known = others
    .map((sample, k) => ({ sample, move: moves[k] ?? [], weight: weights[k] ?? 0 }))
    .filter(({ sample }) => sample.gainDbi !== undefined);
  const gainSlopes = regress({
    moves: known.map(({ move }) => move),
    weights: known.map(({ weight }) => weight),
    changes: known.map(({ sample }) => (sample.gainDbi ?? 0) - (base.gainDbi ?? 0)),
    prior: base.point.map(() => 0),
    spreads: base.point.map(() => GAIN_SPREAD),
    spread: GAIN_SAMPLE,
  });
  const plain: Surrogate = {
    base,
    slopes,
    gainSlopes,
    restSlopes: base.point.map(() => new Float64Array(2 * bandHz.length)),
  };
  return { ...plain, restSlopes: restSlopesOf(plain, others, bandHz) };
}

/** How far a chain with straight slopes may be off in the reflection a unit away, and what of that no straight line follows. */
const REST_SPREAD = 0.15;
const REST_BEND = 0.05;

/**
 * What the samples say beyond the chain, as straight lines at each frequency: a ridge regression of what is missed at every sample. Near
 * the base the surrogate then follows the field solutions also where a chain of so few resonators cannot (output space mapping with a
 * learned Jacobian; in the limit of many samples that of manifold mapping, Echeverria and Hemker, Comput. Methods Appl. Math. 5 (2005) 107; memory).
 */
function restSlopesOf(plain: Surrogate, others: readonly Sample[], bandHz: readonly number[]): readonly Float64Array[] {
  const { base } = plain;
  const n = base.point.length;
  const known = others.map((sample) => {
    const move = sample.point.map((value, i) => value - (base.point[i] ?? 0));
    const far = Math.hypot(...move);
    // Variance of a sample: bends grow with the square of the way.
    const weight = (REST_SPREAD / (REST_BEND * (0.2 + far ** 2))) ** 2;
    return { move, weight, missed: missedAt(plain, sample, bandHz) };
  });
  const normal = Array.from({ length: n }, (_, i) =>
    Array.from({ length: n }, (__, j) =>
      known.reduce((sum, { move, weight }) => sum + weight * (move[i] ?? 0) * (move[j] ?? 0), i === j ? 1 : 0),
    ),
  );
  const right = Array.from({ length: 2 * bandHz.length }, (_, k) =>
    Array.from({ length: n }, (__, i) =>
      known.reduce((sum, { move, weight, missed }) => sum + weight * (move[i] ?? 0) * (missed[k] ?? 0), 0),
    ),
  );
  const solved = solveSymmetric(normal, right);
  return Array.from({ length: n }, (_, i) => Float64Array.from(right, (__, k) => solved?.[k]?.[i] ?? 0));
}

/** Field solution less surrogate at a sample. */
function missedAt(plain: Surrogate, { point, reflection }: Sample, bandHz: readonly number[]): readonly number[] {
  const { base } = plain;
  const flat = chainReflection({ ...base.chain, parameters: parametersAt(plain, point) }, bandHz);
  return bandHz.flatMap((_, k) => [
    (reflection[k]?.re ?? 0) - (flat[2 * k] ?? 0) - (base.rest[k]?.re ?? 0),
    (reflection[k]?.im ?? 0) - (flat[2 * k + 1] ?? 0) - (base.rest[k]?.im ?? 0),
  ]);
}

/** Parameters of the chain that the surrogate expects at a point. */
export function parametersAt({ base, slopes }: Surrogate, point: readonly number[]): readonly number[] {
  return base.chain.parameters.map((value, row) => {
    const slope = slopes[row] ?? [];
    let sum = value;
    for (let i = 0; i < point.length; i++) sum += (slope[i] ?? 0) * ((point[i] ?? 0) - (base.point[i] ?? 0));
    return sum;
  });
}

/** What the chain leaves unsaid, at a point. */
function restAt({ base, restSlopes }: Surrogate, point: readonly number[]): Float64Array {
  const rest = Float64Array.from({ length: 2 * base.rest.length }, (_, k) => {
    const own = base.rest[k >> 1];
    return (k % 2 === 0 ? own?.re : own?.im) ?? 0;
  });
  for (let i = 0; i < point.length; i++) {
    const move = (point[i] ?? 0) - (base.point[i] ?? 0);
    const slope = restSlopes[i];
    if (move === 0 || slope === undefined) continue;
    for (let k = 0; k < rest.length; k++) rest[k] = (rest[k] ?? 0) + move * (slope[k] ?? 0);
  }
  return rest;
}

/** Largest reflection over the band that the surrogate expects, with a little of the mean so that flat valleys have a bottom. */
export function expectedReflection(surrogate: Surrogate, point: readonly number[], freqHz: readonly number[]): number {
  const parameters = parametersAt(surrogate, point);
  const flat = chainReflection({ ...surrogate.base.chain, parameters }, freqHz);
  const rest = restAt(surrogate, point);
  let most = 0;
  let sum = 0;
  for (let k = 0; k < freqHz.length; k++) {
    // A chain that gives power out is extended too far.
    if (Math.hypot(flat[2 * k] ?? 0, flat[2 * k + 1] ?? 0) > MOST_REFLECTION) return 2;
    const size = Math.hypot((flat[2 * k] ?? 0) + (rest[2 * k] ?? 0), (flat[2 * k + 1] ?? 0) + (rest[2 * k + 1] ?? 0));
    most = Math.max(most, size);
    sum += size;
  }
  return most + (0.03 * sum) / freqHz.length;
}

export function expectedGain({ base, gainSlopes }: Surrogate, point: readonly number[]): number | undefined {
  if (base.gainDbi === undefined) return undefined;
  return gainSlopes.reduce((sum, slope, i) => sum + slope * ((point[i] ?? 0) - (base.point[i] ?? 0)), base.gainDbi);
}
