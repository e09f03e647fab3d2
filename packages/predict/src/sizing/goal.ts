import type { Design } from '@sheetwave/design';
import { magnitudeOfVswr, type Response, sweepFrequencies, vswrInBand } from '@sheetwave/rf';

/** What sizing is to reach. */
export interface Goal {
  readonly lowHz: number;
  readonly highHz: number;
  /** Largest reflection over the band, 0 to 1. */
  readonly reflection: number;
  readonly vswr: number;
  /** Least gain over the band, dBi; undefined when the design wants none. */
  readonly gainDbi: number | undefined;
}

export function goalOf({ band, targets }: Design): Goal {
  return { ...band, vswr: targets.vswr, reflection: magnitudeOfVswr(targets.vswr), gainDbi: targets.gainDbi };
}

/** What a response makes of the goal. */
export interface Score {
  /** Largest reflection over the band, and where. */
  readonly reflection: number;
  readonly vswr: number;
  readonly worstHz: number;
  /** Least realised gain within the band; undefined when the solution tells none. */
  readonly gainDbi: number | undefined;
  /** 0 where the goal is just met, below where it is passed, above where it is missed. */
  readonly cost: number;
}

/** A missing decibel weighs as much as a reflection that is larger by half of what is allowed. */
const PER_DECIBEL = 0.5;

/** 0 at the goal; the larger of what is too much reflection, as a share of what is allowed, and of what gain is missing. */
export function costOf(goal: Goal, reflection: number, gainDbi: number | undefined): number {
  const match = reflection / goal.reflection - 1;
  if (goal.gainDbi === undefined || gainDbi === undefined) return match;
  return Math.max(match, PER_DECIBEL * (goal.gainDbi - gainDbi));
}

/** Throws RangeError when the response does not cover the band. `gainDbi`: least realised gain within it, when that is known. */
export function scoreOf(response: Response, gainDbi: number | undefined, goal: Goal): Score {
  const found = vswrInBand(response, goal);
  if (found === undefined || !found.whole) throw new RangeError('The response must cover the whole band.');
  const { vswr, freqHz } = found.worst;
  const reflection = Number.isFinite(vswr) ? magnitudeOfVswr(vswr) : 1;
  return { reflection, vswr, worstHz: freqHz, gainDbi, cost: costOf(goal, reflection, gainDbi) };
}

/** Where a search looks at the reflection: evenly over the band, its edges included. */
export function bandFrequencies({ lowHz, highHz }: Goal, count = 31): readonly number[] {
  return sweepFrequencies(lowHz, highHz, count);
}
