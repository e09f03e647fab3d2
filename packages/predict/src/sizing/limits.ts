import { chainReflection, mismatchLoss } from '@sheetwave/rf';
import type { Goal } from './goal.ts';
import type { State } from './problem.ts';
import type { SizingStep } from './size-design.ts';
import type { Sample } from './surrogate.ts';
import type { Variable } from './variables.ts';

/** A free dimension that stands at an end of its range. */
export interface AtEnd {
  readonly path: string;
  readonly end: 'smallest' | 'largest';
  readonly mm: number;
}

/** What keeps a design from its goal. */
export interface SizingLimits {
  readonly atEnd: readonly AtEnd[];
  /** Plain sentences. */
  readonly sentences: readonly string[];
}

interface Found {
  readonly step: SizingStep;
  readonly sample: Sample;
  readonly ends: State['ends'];
}

interface Sized {
  readonly variables: readonly Variable[];
  readonly goal: Goal;
  readonly bandHz: readonly number[];
}

/** Which ends of ranges the best design stands at, and what of its circuit is in the way. */
export function limitsOf(sized: Sized, found: Found): SizingLimits {
  const atEnd = sized.variables.flatMap(({ path, lowMm, highMm, scaleMm, startMm }): readonly AtEnd[] => {
    const mm = found.step.sizesMm[path] ?? startMm;
    const near = 0.05 * scaleMm;
    if (mm - lowMm < near) return [{ path, end: 'smallest', mm }];
    return highMm - mm < near ? [{ path, end: 'largest', mm }] : [];
  });
  const ends = atEnd.map(
    ({ path, end, mm }) => `${path} stands at the ${end} size it may have, ${mm} mm: widen its range if you can.`,
  );
  const unmakeable = sized.variables.flatMap(({ path, scaleMm, startMm }, index) => {
    const end = found.ends.get(index);
    const mm = found.step.sizesMm[path] ?? startMm;
    const near = end !== undefined && (mm - end.lowMm < 0.1 * scaleMm || end.highMm - mm < 0.1 * scaleMm);
    return near ? [`${path} stands at ${mm} mm, and beyond it the design cannot be made: ${end.why}.`] : [];
  });
  return {
    atEnd,
    sentences: [...ends, ...unmakeable, ...matchSentences(sized, found.sample), ...gainSentences(sized, found.step)],
  };
}

function worstOf(sample: Sample, bandHz: readonly number[], change: (parameters: number[]) => void): number {
  const parameters = [...sample.chain.parameters];
  change(parameters);
  const flat = chainReflection({ ...sample.chain, parameters }, bandHz);
  const size = (k: number) =>
    Math.hypot((flat[2 * k] ?? 0) + (sample.rest[k]?.re ?? 0), (flat[2 * k + 1] ?? 0) + (sample.rest[k]?.im ?? 0));
  return Math.max(...bandHz.map((_, k) => size(k)));
}

function matchSentences({ goal, bandHz }: Sized, sample: Sample): readonly string[] {
  const now = worstOf(sample, bandHz, () => undefined);
  const sentences: string[] = [];
  const series = sample.chain.parameters[1] ?? 0;
  const tuned = Math.min(
    ...[0, 0.25, 0.5].map((share) =>
      worstOf(sample, bandHz, (parameters) => {
        parameters[1] = share * series;
      }),
    ),
  );
  if (series > 0.3 && tuned < 0.75 * now) {
    sentences.push(
      `The inductance of the feed (${(series * sample.chain.referenceOhm).toFixed(0)} ohm in series) holds the match back: with less of it the worst reflection would fall from ${now.toFixed(2)} to about ${tuned.toFixed(2)}. A thicker pin, a smaller first gap or a feed nearer the edge lowers it.`,
    );
  }
  const [loss = 0] = sample.chain.parameters.slice(5, 6);
  if (sample.chain.parameters.length === 6 && loss > 0) {
    sentences.push(...fanoSentence(goal, 1 / loss));
  }
  return sentences;
}

/**
 * One resonance: no lossless matching at all reflects less than exp(-pi/(Q B)) over a relative band B (Fano, J. Franklin Inst. 249
 * (1950) 57; memory), and a plain feed reaches (S - 1)/(Q sqrt S) (Balanis, Antenna Theory, eq. 14-88).
 */
function fanoSentence({ lowHz, highHz, vswr }: Goal, quality: number): readonly string[] {
  const band = (highHz - lowHz) / Math.sqrt(highHz * lowHz);
  const plain = (vswr - 1) / (quality * Math.sqrt(vswr));
  if (plain >= band) return [];
  const floor = Math.exp(-Math.PI / (quality * band));
  return [
    `One resonance of Q ${quality.toFixed(1)} holds VSWR ${vswr} over ${(100 * plain).toFixed(1)} % at best, and ${(100 * band).toFixed(1)} % are wanted (no matching whatever gets below a reflection of ${floor.toFixed(2)}): a larger gap or another patch above widens it.`,
  ];
}

function gainSentences({ goal }: Sized, { score }: SizingStep): readonly string[] {
  if (goal.gainDbi === undefined || score.gainDbi === undefined || score.gainDbi >= goal.gainDbi) return [];
  // What the worst match in the band may take off it: once that is mended, the gain may be there.
  if (score.gainDbi + mismatchLoss(Math.min(0.999, score.reflection)) >= goal.gainDbi) return [];
  return [
    `The gain falls short by ${(goal.gainDbi - score.gainDbi).toFixed(1)} dB: more elements, a wider pitch or a larger reflector raise it; patch sizes hardly do.`,
  ];
}
