import type { Finding } from '@sheetwave/design';
import type { Complex, Response } from '@sheetwave/rf';

/**
 * Where the generators sit. `as-built`: one port at the coax, with the harness as it is made. `each-element`: one ideal
 * port at the foot of every element's probe, without the harness.
 */
export type FeedModel = 'as-built' | 'each-element';

/** How fine the grid of the field solution is. */
export type PredictionQuality = 'draft' | 'normal' | 'fine';

/**
 * What "resonance" means, since the definitions disagree for thick air gaps: `pole` is the frequency of a free
 * oscillation, `reactance-zero` where the reactance at the port passes through zero, `resistance-peak` where the
 * resistance is greatest, `least-reflection` where the match is best.
 */
export type ResonanceKind = 'pole' | 'reactance-zero' | 'resistance-peak' | 'least-reflection';

export interface PredictedResonance {
  readonly kind: ResonanceKind;
  /** Index of the port it was seen at. */
  readonly port: number;
  readonly freqHz: number;
  /** Of a pole: its quality factor, |s| / (2 |Re s|). */
  readonly q?: number;
  /** Of a pole: amplitude relative to the strongest one seen at this port, 0 to 1. */
  readonly strength?: number;
  /** Impedance there, ohm; left out for poles outside the sweep. */
  readonly zOhm?: Complex;
}

/** A stretch of the sweep over which the match at one port is good. */
export interface MatchedBand {
  readonly port: number;
  /** The limit: VSWR is at most this from low to high. */
  readonly vswr: number;
  readonly lowHz: number;
  readonly highHz: number;
  /** Width over the middle, per cent. */
  readonly percent: number;
  /** True when the band may reach on beyond the end of the sweep. */
  readonly isCutOffLow: boolean;
  readonly isCutOffHigh: boolean;
  /** Lowest VSWR inside, and where. */
  readonly bestVswr: number;
  readonly bestHz: number;
}

/** The match of one port over the design's band. */
export interface BandMatch {
  readonly port: number;
  /** Of the design, Hz. */
  readonly lowHz: number;
  readonly highHz: number;
  /** Highest VSWR between them, and where. */
  readonly worstVswr: number;
  readonly worstHz: number;
  /** Lowest VSWR of the whole sweep, and where. */
  readonly bestVswr: number;
  readonly bestHz: number;
}

/** A direction from the antenna as hung: degrees to the right and up, seen from behind it, the way it looks. */
export interface BeamDirection {
  readonly rightDeg: number;
  readonly upDeg: number;
}

/** The antenna as a radiator, driven at one port at one frequency; the other ports end in their reference impedance. */
export interface FarFieldFigures {
  readonly freqHz: number;
  readonly port: number;
  readonly directivityDbi: number;
  /** Directivity with all losses in metal and dielectric. */
  readonly gainDbi: number;
  /** Gain with the loss by mismatch. */
  readonly realisedGainDbi: number;
  /** Gain straight ahead, both polarisations, dBi. */
  readonly gainAheadDbi: number;
  readonly beam: BeamDirection;
  /** Half-power beamwidths, degrees; undefined where the cut does not fall by 3 dB on both sides. */
  readonly beamwidthVerticalDeg: number | undefined;
  readonly beamwidthHorizontalDeg: number | undefined;
  /** Main beam over the opposite direction, dB. */
  readonly frontToBackDb: number;
  /** Main beam over the highest other lobe of the two principal cuts, dB; undefined when there is none. */
  readonly sideLobeDb: number | undefined;
  /** The wanted polarisation over the one across it, in the main beam, dB. */
  readonly crossPolarisationDb: number;
  /** Radiated over accepted power, 0 to 1. */
  readonly efficiency: number;
  /** Shares of the accepted power. `rest` is what dielectrics lose, and the error of the balance. */
  readonly balance: { readonly radiated: number; readonly metal: number; readonly rest: number };
}

/** Gain over frequency, driven at one port. Lists of one length. */
export interface GainCurve {
  readonly port: number;
  /** Where a far field was worked out, in rising order; in between the gain is a smooth curve. */
  readonly solvedHz: readonly number[];
  /** These, and the frequencies of the sweep between them. */
  readonly freqHz: readonly number[];
  /** In the main beam, with all losses and without mismatch. */
  readonly gainDbi: readonly number[];
  /** The same with the loss by mismatch. */
  readonly realisedGainDbi: readonly number[];
  /** Straight ahead, without mismatch. */
  readonly gainAheadDbi: readonly number[];
}

/** A great circle through the direction straight ahead. */
export interface PatternCut {
  readonly freqHz: number;
  readonly port: number;
  /** `vertical`: up and down as hung; `horizontal`: left and right. */
  readonly plane: 'vertical' | 'horizontal';
  /** From straight ahead, -180 to 180, rising: positive is up or to the right seen from behind the antenna. */
  readonly angleDeg: readonly number[];
  /** Gain in the wanted polarisation, dBi; at least -60. */
  readonly coDbi: readonly number[];
  /** Gain in the polarisation across it, dBi; at least -60. */
  readonly crossDbi: readonly number[];
}

/** Coupling between two elements, the others ending in their reference impedance. */
export interface PairCoupling {
  readonly from: number;
  readonly to: number;
  /** Strongest within the design's band, dB, and where. */
  readonly worstDb: number;
  readonly worstHz: number;
  /** In the middle of the design's band, dB. */
  readonly centreDb: number;
}

export interface Coupling {
  /** Each pair once, the strongest first. */
  readonly pairs: readonly PairCoupling[];
  /** Largest reflection of one element in the band when all are driven alike, dB: what coupling makes of the match. */
  readonly activeReflectionDb: number;
}

/** What the port of a prediction stands for. */
export interface PredictedPort {
  readonly name: string;
  /** Index into the assembly's elements; undefined for the coax. */
  readonly element: number | undefined;
  readonly referenceOhm: number;
}

/** Error that the grid leaves, from a second run on coarser cells. */
export interface PredictedMeshError {
  /** Relative; undefined when no resonance was seen. */
  readonly resonance: number | undefined;
  /** Of each S parameter, absolute. */
  readonly s: number;
  readonly gainDb: number;
}

/** What a solution costs, before or after it was made. Says nothing of time: that depends on the machine. */
export interface PredictionCost {
  readonly nodes: readonly [number, number, number];
  readonly cells: number;
  readonly smallestCellM: number;
  readonly largestCellM: number;
  readonly timeStepS: number;
  readonly memoryBytes: number;
  /** One for each port. */
  readonly runs: number;
  /** Of all runs: expected before, and what it took after. */
  readonly steps: number;
  /** Planes in which the solution was mirrored. */
  readonly mirroredAcross: readonly ('x' | 'y' | 'z')[];
}

/** How the run of one port ended. */
export interface PredictedRun {
  readonly port: number;
  readonly steps: number;
  /** `extrapolated`: few damped oscillations carry the last of the ringing on. */
  readonly end: 'decayed' | 'extrapolated';
  /** Field energy left, dB of its highest value. */
  readonly energyDb: number;
}

/** What a field solution says of a whole antenna. Plain data in SI units; a run that has not converged gives none. */
export interface Prediction {
  readonly feed: FeedModel;
  readonly quality: PredictionQuality;
  readonly ports: readonly PredictedPort[];
  /** S parameters over the sweep with their error, and the patterns of the far fields that drive the first port. */
  readonly response: Response;
  /** Impedance of each port, the others ending in their reference: zOhm[i][port] at response.freqHz[i]. */
  readonly zOhm: readonly (readonly Complex[])[];
  readonly resonances: readonly PredictedResonance[];
  /** At VSWR 2 and at the design's target, each stretch once; empty when the match is never that good. */
  readonly bands: readonly MatchedBand[];
  readonly matches: readonly BandMatch[];
  /** One for each port and frequency of a far field. */
  readonly figures: readonly FarFieldFigures[];
  /** One for each port with far fields. */
  readonly gains: readonly GainCurve[];
  /** Two for each of `figures`. */
  readonly cuts: readonly PatternCut[];
  /** With a port at each of several elements only. */
  readonly coupling: Coupling | undefined;
  /** With a second grid only; `response.error` then rests on it. */
  readonly meshError: PredictedMeshError | undefined;
  readonly cost: PredictionCost;
  readonly runs: readonly PredictedRun[];
  /** Plain sentences: what the model leaves out. */
  readonly doubts: readonly string[];
  /** What the builder should look at: a match or a gain that misses its target. */
  readonly findings: readonly Finding[];
}
