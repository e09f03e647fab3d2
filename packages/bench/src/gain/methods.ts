import { freeSpaceLossDb, mismatchLoss } from '@sheetwave/rf';
import { type ErrorBudget, type ErrorName, type ErrorPart, errorBudget } from './budget.ts';
import { type DistanceCheck, distanceCheck } from './distance.ts';
import { mismatchErrorDb } from './mismatch.ts';

/** What each part is taken to be when nobody says better, dB (common practice, no source). */
const USUAL_DB = { level: 0.3, receiver: 2, 'known-gain': 0.5, sent: 1, alignment: 0.2, cables: 0.1 } as const;
/** A wave over the ground or a wall, against the direct one: 25 dB below (common practice, no source). */
const SECOND_RAY = 10 ** (-25 / 20);
/** Reflection that the instrument itself has after calibration (common practice, no source). */
const INSTRUMENT_REFLECTION = 0.05;
/** Reflection of an antenna whose sweep is not given: VSWR 2. */
const UNKNOWN_REFLECTION = 1 / 3;
/** How well a distance is taped, as a share of it (common practice, no source). */
const DISTANCE_SHARE = 0.01;

/** What all methods need. */
export interface GainSetting {
  readonly freqHz: number;
  readonly distanceM: number;
  /** Largest dimension of the larger antenna of those that are measured, m. */
  readonly largestM: number;
  /** Parts of the error that the user knows better, dB. */
  readonly errorsDb?: Readonly<Partial<Record<ErrorName, number>>>;
}

/** A gain with how far it may be off. */
export interface MeasuredGain {
  readonly method: 'substitution' | 'three-antennas' | 'link';
  /** Without the loss by mismatch at the antenna's own connector, dBi (IEEE Std 145); the level's own where its reflection is unknown. */
  readonly gainDbi: number;
  /** With that loss. */
  readonly realisedGainDbi: number;
  readonly freeSpaceLossDb: number;
  readonly mismatchLossDb: { readonly own: number; readonly others: readonly number[] };
  readonly distance: DistanceCheck;
  readonly budget: ErrorBudget;
}

/** Of an antenna: magnitude of its reflection; undefined when it was not swept. */
type Reflection = number | undefined;

const lossOf = (reflection: Reflection): number => (reflection === undefined ? 0 : mismatchLoss(reflection));

export interface Substitution extends GainSetting {
  /** Level with the antenna, and with the known one in its place, dB or dBm. */
  readonly levelDb: number;
  readonly knownLevelDb: number;
  readonly knownGainDbi: number;
  /** Loss of the antenna's cable over that of the known one, dB. */
  readonly extraCableDb?: number;
  readonly reflection: Reflection;
  readonly knownReflection: Reflection;
}

/**
 * Gain by putting the antenna in the place of a known one: G = G_known + (P - P_known) + cables + 10 log10((1 - |G_known|²)/(1 - |G|²))
 * (IEEE Std 149, gain transfer; memory).
 */
export function gainBySubstitution(input: Substitution): MeasuredGain {
  const { levelDb, knownLevelDb, knownGainDbi, extraCableDb = 0, reflection, knownReflection } = input;
  const known = lossOf(knownReflection);
  const realised = knownGainDbi - known + levelDb - knownLevelDb + extraCableDb;
  const parts = [
    part(input, 'level', Math.SQRT2 * USUAL_DB.level, `two readings of ${USUAL_DB.level} dB each; usual`),
    part(input, 'known-gain', USUAL_DB['known-gain'], 'the known antenna; usual for one with a data sheet'),
    mismatchPart(input, [reflection, knownReflection], 1),
    ripplePart(input, Math.SQRT2, 'on each of two readings'),
    part(input, 'alignment', Math.SQRT2 * USUAL_DB.alignment, 'pointing and polarisation, two alignments; usual'),
    part(input, 'distance', distanceOf(input).curvatureDb, 'the curved wave front over the larger antenna; computed'),
    ...(extraCableDb === 0 ? [] : [part(input, 'cables', USUAL_DB.cables, 'the difference of two cables; usual')]),
  ];
  return result('substitution', input, { realised, reflection, others: [known], parts });
}

export interface ThreeAntennas extends GainSetting {
  /** Received over sent power, dB, of each pair at the same distance: the antenna is the first one. */
  readonly firstSecondDb: number;
  readonly firstThirdDb: number;
  readonly secondThirdDb: number;
  readonly reflection: Reflection;
  readonly otherReflections: readonly Reflection[];
}

/** The first of three unknown antennas: G_1 = (S_12 + S_13 - S_23 + free-space loss)/2 (Friis 1946 three times; IEEE Std 149; memory). */
export function gainOfThree(input: ThreeAntennas): MeasuredGain {
  const { firstSecondDb, firstThirdDb, secondThirdDb, reflection, otherReflections } = input;
  const loss = freeSpaceLossDb(input.distanceM, input.freqHz);
  const realised = (firstSecondDb + firstThirdDb - secondThirdDb + loss) / 2;
  const three = Math.sqrt(3) / 2;
  const parts = [
    part(input, 'level', three * USUAL_DB.level, `half of three readings of ${USUAL_DB.level} dB each; usual`),
    mismatchPart(input, [reflection, ...otherReflections], Math.SQRT1_2),
    ripplePart(input, three, 'on each of three readings, half of which counts'),
    part(input, 'alignment', three * USUAL_DB.alignment, 'pointing and polarisation, three alignments; usual'),
    distancePart(input, 0.5),
  ];
  return result('three-antennas', input, { realised, reflection, others: otherReflections.map(lossOf), parts });
}

export interface OnLink extends GainSetting {
  readonly levelDbm: number;
  readonly sentDbm: number;
  /** Of the far end; undefined when it has an antenna like this one. */
  readonly farGainDbi: number | undefined;
  /** Loss of all cables between radios and antennas, dB. */
  readonly cableDb?: number;
  readonly reflection: Reflection;
}

/** Gain from the level of a link whose other numbers are known: G = P - P_sent + free-space loss + cables - G_far (Friis 1946). */
export function gainOnLink(input: OnLink): MeasuredGain {
  const { levelDbm, sentDbm, farGainDbi, cableDb = 0, reflection } = input;
  const both = levelDbm - sentDbm + freeSpaceLossDb(input.distanceM, input.freqHz) + cableDb;
  const share = farGainDbi === undefined ? 0.5 : 1;
  const realised = farGainDbi === undefined ? both / 2 : both - farGainDbi;
  const parts = [
    part(input, 'level', share * USUAL_DB.receiver, 'level that a radio reports; usual'),
    part(input, 'sent', share * USUAL_DB.sent, 'power that a radio sends; usual'),
    ...(farGainDbi === undefined
      ? []
      : [part(input, 'known-gain', USUAL_DB['known-gain'], 'the antenna of the far end; usual')]),
    mismatchPart(input, [reflection, reflection], share),
    ripplePart(input, share, 'over ground or water, once'),
    part(input, 'alignment', share * Math.SQRT2 * USUAL_DB.alignment, 'pointing and polarisation of both ends; usual'),
    distancePart(input, share),
    part(input, 'cables', share * USUAL_DB.cables, 'losses of cables; usual'),
  ];
  return result('link', input, { realised, reflection, others: [], parts });
}

const distanceOf = ({ distanceM, largestM, freqHz }: GainSetting): DistanceCheck =>
  distanceCheck(distanceM, largestM, freqHz);

function part({ errorsDb = {} }: GainSetting, name: ErrorName, usualDb: number, source: string): ErrorPart {
  const given = errorsDb[name];
  return given === undefined ? { name, db: usualDb, source } : { name, db: given, source: 'as given' };
}

/** Each antenna against the instrument, whose phase nobody knows; `share` of it counts. */
function mismatchPart(input: GainSetting, reflections: readonly Reflection[], share: number): ErrorPart {
  const each = reflections.map((one) => mismatchErrorDb(one ?? UNKNOWN_REFLECTION, INSTRUMENT_REFLECTION));
  // Without a sweep the loss itself is unknown too: it is one side of the match at VSWR 2.
  const unknown = reflections.map((one) => (one === undefined ? mismatchLoss(UNKNOWN_REFLECTION) : 0));
  const isKnown = reflections.every((one) => one !== undefined);
  const source = isKnown
    ? `reflections as swept against ${INSTRUMENT_REFLECTION} of the instrument, phases unknown; computed`
    : `an antenna was not swept: VSWR up to 2, against ${INSTRUMENT_REFLECTION} of the instrument; computed`;
  return part(input, 'mismatch', share * Math.hypot(...each, ...unknown), source);
}

function ripplePart(input: GainSetting, share: number, how: string): ErrorPart {
  return part(
    input,
    'ripple',
    share * 20 * Math.log10(1 + SECOND_RAY),
    `a second ray 25 dB below the first, ${how}; usual`,
  );
}

function distancePart(input: GainSetting, share: number): ErrorPart {
  const taped = share * 20 * Math.log10(1 + DISTANCE_SHARE);
  const source = 'distance to 1 %, and the curved wave front; usual and computed';
  return part(input, 'distance', Math.hypot(taped, distanceOf(input).curvatureDb), source);
}

interface Found {
  readonly realised: number;
  readonly reflection: Reflection;
  readonly others: readonly number[];
  readonly parts: readonly ErrorPart[];
}

function result(method: MeasuredGain['method'], input: GainSetting, found: Found): MeasuredGain {
  const own = lossOf(found.reflection);
  return {
    method,
    gainDbi: found.realised + own,
    realisedGainDbi: found.realised,
    freeSpaceLossDb: freeSpaceLossDb(input.distanceM, input.freqHz),
    mismatchLossDb: { own, others: found.others },
    distance: distanceOf(input),
    budget: errorBudget(found.parts),
  };
}
