import type { Design } from '@sheetwave/design';
import {
  asMegahertzPerTenthMillimetre,
  circularPatchEdgeResistance,
  circularPatchResonance,
  type Estimate,
  effectiveLength,
  type PatchQuality,
  patchBandwidth,
  patchQuality,
  patchResonance,
  patchSensitivity,
  probeReactance,
  resistanceAt,
} from '@sheetwave/rf';
import { asRectangle, type DrivenPatch, surfaceOhm } from './driven-patch.ts';
import { type EstimateLine, lineOf } from './estimate-line.ts';

/** What the closed forms say of the driven patch alone. */
export interface PatchNumbers {
  readonly resonance: Estimate;
  readonly quality: PatchQuality;
  /** At the feed point, at resonance, ohm. */
  readonly feedResistance: Estimate;
  readonly probeReactance: Estimate | undefined;
  readonly lines: readonly EstimateLine[];
  readonly slopes: readonly PatchSlope[];
}

/** How far a dimension of the driven patch moves its resonance. */
export interface PatchSlope {
  /** For people: `length`, `gap under it`. */
  readonly dimension: string;
  /** What sets it in the workshop: the cut, what holds the patch at its height, or the sheet as it is bought. */
  readonly sets: 'cut' | 'gap' | 'sheet';
  /** For 0.1 mm more, with half the width of its error band. */
  readonly mhzPerTenthMm: number;
  readonly errorMhz: number;
}

const SLOPE_ORIGIN =
  'Slopes of the same closed forms; against an independent field solution the gap slope is within 15 %.';

/** Numbers of the driven patch with its parasitics taken away; `stacked` says so beside each. */
export function patchNumbers(design: Design, driven: DrivenPatch): PatchNumbers {
  const stacked = design.layers.length > 1;
  const doubts = stacked
    ? ['It is for the driven patch alone: parasitic patches shift it, and no closed form says how far.']
    : [];
  const resonance = driven.shape === 'circle' ? discResonance(driven) : patchResonance(asRectangle(driven));
  const lossy = lossyPatch(driven, resonance.value);
  const quality = patchQuality(lossy);
  const edge = driven.shape === 'circle' ? discEdge(driven, resonance.value) : quality.edgeResistance;
  const feedResistance = feedEstimate(driven, edge);
  const slopes = patchSlopes(driven);
  const probe = probeOf(design, driven, resonance.value);
  const lines = [
    lineOf(resonance, { what: 'Resonance of the driven patch', unit: 'GHz', factor: 1e-9, digits: 2, doubts }),
    ...slopes.map((slope) => slopeLine(slope, doubts)),
    lineOf(edge, { what: 'Resistance at the radiating edge', unit: 'ohm', digits: 0, doubts }),
    lineOf(feedResistance, { what: 'Resistance at the feed point', unit: 'ohm', digits: 0, doubts }),
    ...(probe ? [lineOf(probe, { what: 'Series reactance of the probe', unit: 'ohm', digits: 0 })] : []),
    lineOf(quality.efficiency, { what: 'Efficiency of the patch', unit: '%', factor: 100, digits: 0, doubts }),
    ...(stacked ? [] : [bandwidthLine(design, driven, resonance.value)]),
  ];
  return { resonance, quality, feedResistance, probeReactance: probe, lines, slopes };
}

function discResonance({ lengthM, heightM, permittivity }: DrivenPatch): Estimate {
  return circularPatchResonance({ radiusM: lengthM / 2, heightM, permittivity });
}

function discEdge(driven: DrivenPatch, freqHz: number): Estimate {
  const { lengthM, heightM, permittivity, lossTangent, conductivity } = driven;
  return circularPatchEdgeResistance({
    radiusM: lengthM / 2,
    heightM,
    permittivity,
    lossTangent,
    conductivity,
    freqHz,
  });
}

function lossyPatch(driven: DrivenPatch, freqHz: number) {
  const { lengthM, widthM, heightM, permittivity } = asRectangle(driven);
  return {
    freqHz,
    lengthM,
    widthM,
    heightM,
    permittivity,
    lossTangent: driven.lossTangent,
    surfaceOhm: surfaceOhm(driven, freqHz),
  };
}

/** Resistance where the feed sits, with the edge's own error: sin^2 along the effective length. */
function feedEstimate(driven: DrivenPatch, edge: Estimate): Estimate {
  const rectangle = asRectangle(driven);
  // The field's half wave runs over the end extensions too; a disc's effective square already holds them.
  const lengthM = driven.shape === 'circle' ? rectangle.lengthM : effectiveLength(rectangle);
  const fromCentreM = driven.lengthM / 2 - driven.feedFromEdgeM;
  return { ...edge, value: resistanceAt(Math.max(0, fromCentreM), { edgeOhm: edge.value, lengthM }) };
}

function probeOf(design: Design, driven: DrivenPatch, freqHz: number): Estimate | undefined {
  if (design.feed.kind !== 'probe') return undefined;
  const radiusM = design.feed.probeDiameterMm / 2000;
  return probeReactance({ freqHz, heightM: driven.heightM, radiusM, permittivity: driven.permittivity });
}

function bandwidthLine(design: Design, driven: DrivenPatch, freqHz: number): EstimateLine {
  const bandwidth = patchBandwidth(lossyPatch(driven, freqHz), design.targets.vswr);
  const what = `Bandwidth at VSWR ${design.targets.vswr}, matched in the middle`;
  return lineOf(bandwidth, { what, unit: 'MHz', factor: freqHz * 1e-6, digits: 0 });
}

/** What half a millimetre would do: MHz for each 0.1 mm of every dimension that a tool or a spacer sets. */
function patchSlopes(driven: DrivenPatch): PatchSlope[] {
  const slopes = driven.shape === 'circle' ? discSlopes(driven) : rectangleSlopes(driven);
  return slopes.map(([dimension, sets, hzPerM]) => {
    const mhzPerTenthMm = asMegahertzPerTenthMillimetre(hzPerM);
    return { dimension, sets, mhzPerTenthMm, errorMhz: 0.15 * Math.abs(mhzPerTenthMm) };
  });
}

function slopeLine({ dimension, mhzPerTenthMm, errorMhz }: PatchSlope, doubts: readonly string[]): EstimateLine {
  return {
    what: `0.1 mm more ${dimension} moves the resonance by`,
    value: mhzPerTenthMm,
    unit: 'MHz',
    error: errorMhz,
    digits: 1,
    origin: SLOPE_ORIGIN,
    doubts,
  };
}

type Slope = readonly [dimension: string, sets: PatchSlope['sets'], hzPerM: number];

function rectangleSlopes(driven: DrivenPatch): Slope[] {
  const slopes = patchSensitivity(asRectangle(driven));
  const gap = driven.permittivity === 1 ? 'gap under it' : 'dielectric under it';
  return [
    ['length', 'cut', slopes.perLength],
    ['width', 'cut', slopes.perWidth],
    [gap, 'gap', slopes.perHeight],
    ...(driven.permittivity === 1 ? [['sheet thickness', 'sheet', slopes.perSheet] as const] : []),
  ];
}

function discSlopes(driven: DrivenPatch): Slope[] {
  const at = (change: Partial<DrivenPatch>): number => discResonance({ ...driven, ...change }).value;
  const slope = (key: 'lengthM' | 'heightM'): number => {
    const step = driven[key] * 1e-5;
    return (at({ [key]: driven[key] + step }) - at({ [key]: driven[key] - step })) / (2 * step);
  };
  return [
    ['diameter', 'cut', slope('lengthM')],
    ['gap under it', 'gap', slope('heightM')],
  ];
}
