import type { Finding } from '@sheetwave/design';
import type { Response } from '@sheetwave/rf';
import { checkSweep } from '../sweep/check-sweep.ts';
import { againstReference } from '../sweep/reference.ts';
import { type FeaturePair, pairFeatures } from './pair-features.ts';
import { type Aim, type Feature, MOVED_BY_CABLE, type Side, sideOf } from './side.ts';
import { verdictOf } from './verdict.ts';

export interface ComparisonInput extends Aim {
  /** With the cable taken out where it is known. */
  readonly measured: Response;
  /** Undefined where nothing could be predicted. */
  readonly predicted: Response | undefined;
  /** Of the coax of the design, ohm. */
  readonly referenceOhm: number;
  /** Whether the sweep ends at the antenna: calibrated there, or its cable taken out. Otherwise only what a cable does not move is compared. */
  readonly atAntenna: boolean;
  /** How far the delay that was taken out may be off, s. What a cable moves is left out when that turns the reflection by half a radian. */
  readonly delayErrorS?: number;
}

/** Turn of the reflection that leaves resistance and reactance without meaning, rad. */
const TURN_TOO_FAR = 0.5;

/** What a sweep says beside what was expected. Plain data: every number that is shown is in it. */
export interface Comparison extends Aim {
  readonly measured: Side;
  readonly predicted: Side | undefined;
  readonly pairs: readonly FeaturePair[];
  /** Features of one side without a partner on the other. */
  readonly onlyMeasured: readonly Feature[];
  readonly onlyPredicted: readonly Feature[];
  /** Relative error of the predicted frequencies, as the prediction states it. */
  readonly frequencyError: number | undefined;
  /** Measured less predicted; undefined where one side has none. */
  readonly widthDifferenceHz: number | undefined;
  /** Whether the measured VSWR stays within the target over the whole band; undefined when the sweep does not cover it. */
  readonly meetsTarget: boolean | undefined;
  /** Sentences, the most important first. */
  readonly verdict: readonly string[];
  readonly findings: readonly Finding[];
}

/**
 * Compares a measured response with a predicted one over the band of a design. A sweep against another reference is converted; one that has nothing
 * in the band is compared as far as it goes, and a finding (an error) says so.
 */
export function compareResponses(input: ComparisonInput): Comparison {
  const { band, targetVswr, port = 0, referenceOhm, atAntenna } = input;
  const aim = { band, targetVswr, port };
  const turn = 4 * Math.PI * band.highHz * (input.delayErrorS ?? 0);
  const findings = [
    ...checkSweep(input.measured, { band, referenceOhm, port, cableRemoved: atAntenna }),
    ...(turn > TURN_TOO_FAR ? [planeUncertain(turn)] : []),
  ];
  const measured = sideOf(againstReference(input.measured, referenceOhm), aim);
  const predicted =
    input.predicted === undefined ? undefined : sideOf(againstReference(input.predicted, referenceOhm), aim);
  const cableInIt = findings.some(({ code }) => HIDES_IMPEDANCE.has(code));
  const shown = ({ kind }: Feature) => !(MOVED_BY_CABLE.has(kind) && cableInIt);
  const frequencyError = input.predicted?.error.frequency;
  const ours = measured.features.filter(shown);
  const theirs = (predicted?.features ?? []).filter(shown);
  const pairs = pairFeatures(ours, theirs, frequencyError);
  const { inBand } = measured;
  const rest = {
    ...aim,
    measured: { ...measured, features: ours },
    predicted: predicted === undefined ? undefined : { ...predicted, features: theirs },
    pairs,
    onlyMeasured: ours.filter(
      ({ kind, freqHz }) => !pairs.some((pair) => pair.kind === kind && pair.measuredHz === freqHz),
    ),
    onlyPredicted: theirs.filter(
      ({ kind, freqHz }) => !pairs.some((pair) => pair.kind === kind && pair.predictedHz === freqHz),
    ),
    frequencyError,
    widthDifferenceHz: widthDifference(measured, predicted),
    meetsTarget: inBand === undefined ? undefined : meets(inBand.worst.vswr, inBand.whole, targetVswr),
    findings,
  };
  return { ...rest, verdict: verdictOf(rest) };
}

const HIDES_IMPEDANCE: ReadonlySet<string> = new Set([
  'cable-in-sweep',
  'long-cable',
  'too-much-delay',
  'plane-uncertain',
]);

const planeUncertain = (turn: number): Finding => ({
  code: 'plane-uncertain',
  severity: 'note',
  path: '',
  value: `a reflection turned by an unknown ${Math.round((turn * 180) / Math.PI)}°`,
  allowed: 'is left by the error of the fitted cable: resistance and reactance are not compared',
  remedy: 'sweep the end of the cable open or shorted, or calibrate at the antenna, to have them',
});

/** A part of the band can break the target, and only the whole of it can meet it. */
function meets(worst: number, whole: boolean, target: number): boolean | undefined {
  if (worst > target) return false;
  return whole ? true : undefined;
}

/** Only widths whose both edges were seen can be compared. */
function widthDifference(measured: Side, predicted: Side | undefined): number | undefined {
  const [a, b] = [measured.atTwo, predicted?.atTwo];
  if (a === undefined || b === undefined) return undefined;
  return a.lowSeen && a.highSeen && b.lowSeen && b.highSeen ? a.widthHz - b.widthHz : undefined;
}
