import type { Finding } from '@sheetwave/design';
import type { Assembly } from '@sheetwave/geometry';
import {
  absoluteError,
  beamwidths,
  circularPatchDirectivity,
  type Estimate,
  effectiveRadius,
  errorInUnits,
  gratingLobePitch,
  onePortResponse,
  patchArrayDirectivity,
  patchImpedance,
  type Response,
  sweepFrequencies,
  toDecibels,
  treeInputImpedance,
} from '@sheetwave/rf';
import { patchArray } from './array-model.ts';
import { type ClosedForms, closedForms } from './closed-forms.ts';
import { type DrivenPatch, drivenPatch, lengthIsVertical } from './driven-patch.ts';
import { type EstimateLine, lineOf } from './estimate-line.ts';
import { harnessEstimateLines } from './harness-lines.ts';
import { bandCentreHz, feedTree, matchedHarnessLossDb } from './harness-model.ts';
import { type PatchNumbers, type PatchSlope, patchNumbers } from './patch-lines.ts';

/** What closed forms expect of an antenna, each number with its error, and what they cannot say. */
export interface EstimateReport {
  readonly lines: readonly EstimateLine[];
  /** Plain sentences: what the calculation does not know, or refuses to say. */
  readonly leavesOut: readonly string[];
  /** Reflection over twice the band at the coax, for single-layer antennas only. */
  readonly response: Response | undefined;
  readonly findings: readonly Finding[];
  /** How far each dimension of the driven patch moves its resonance; left out where no closed form knows the shape. */
  readonly slopes?: readonly PatchSlope[];
}

const POINTS = 101;
const GAIN_LINE = 'Gain straight ahead, matched';
const DEGREES = 180 / Math.PI;

/**
 * The first estimate. For a stack it gives the numbers of the driven patch alone and of the array of driven patches,
 * says so beside each, and gives no bandwidth, no match and no response: closed forms do not hold there.
 */
export function estimate(assembly: Assembly): EstimateReport {
  const { design } = assembly;
  const freqHz = bandCentreHz(design);
  const forms = drivenForms(assembly);
  if (!forms.hold) return withoutPatch(assembly, forms.why);
  const driven = drivenPatch(assembly);
  const patch = withDoubts(patchNumbers(design, driven), forms.doubts);
  const pattern = patternNumbers(assembly, driven, patch);
  const stacked = design.layers.length > 1;
  return {
    lines: [...patch.lines, ...harnessEstimateLines(assembly), ...pattern.lines],
    slopes: patch.slopes,
    leavesOut: [...(stacked ? stackGaps(design.layers.length) : []), ...gaps(patch, pattern.directivity)],
    response: stacked || !forms.oneResonance ? undefined : sweep(assembly, patch),
    findings: [
      ...(forms.oneResonance ? bandFindings(assembly, patch) : []),
      ...gainFindings(assembly, pattern.gain),
      ...pitchFindings(assembly, freqHz),
    ],
  };
}

/** The gain among the lines of an estimate, or undefined when it has none. */
export function estimatedGain({ lines }: Pick<EstimateReport, 'lines'>): EstimateLine | undefined {
  return lines.find(({ what }) => what === GAIN_LINE);
}

function drivenForms({ design }: Assembly): ClosedForms {
  const [driven] = design.layers;
  if (!driven) throw new Error('a design has at least one layer');
  return closedForms(driven.shape);
}

/** What is left to say when no closed form knows the driven patch: the harness, and whether the pitch suits the band. */
function withoutPatch(assembly: Assembly, why: string): EstimateReport {
  return {
    lines: harnessEstimateLines(assembly),
    leavesOut: [why],
    response: undefined,
    findings: pitchFindings(assembly, bandCentreHz(assembly.design)),
  };
}

function withDoubts(patch: PatchNumbers, doubts: readonly string[]): PatchNumbers {
  return { ...patch, lines: patch.lines.map((line) => ({ ...line, doubts: [...doubts, ...line.doubts] })) };
}

interface PatternNumbers {
  readonly directivity: Estimate;
  readonly gain: EstimateLine;
  readonly lines: readonly EstimateLine[];
}

function patternNumbers(assembly: Assembly, driven: DrivenPatch, patch: PatchNumbers): PatternNumbers {
  const { design } = assembly;
  const freqHz = bandCentreHz(design);
  const array = patchArray(assembly, driven, freqHz);
  const directivity = directivityOf(assembly, driven);
  const widths = beamwidths(array);
  const upright = lengthIsVertical(design);
  const doubts =
    design.layers.length > 1
      ? ['It is for the driven patches; parasitic patches narrow the beam of each element a little.']
      : [];
  const gain = gainLine(assembly, directivity, patch);
  const beam = (what: string, width: Estimate): EstimateLine =>
    lineOf(width, { what, unit: 'degrees', factor: DEGREES, digits: 0, doubts });
  const lines = [
    lineOf(directivity, { what: 'Directivity straight ahead', unit: 'dBi', digits: 1, doubts }),
    { ...gain, doubts: [...gain.doubts, ...doubts] },
    beam('Half-power beamwidth, vertical plane', upright ? widths.alongLength : widths.alongWidth),
    beam('Half-power beamwidth, horizontal plane', upright ? widths.alongWidth : widths.alongLength),
  ];
  return { directivity, gain, lines };
}

function directivityOf(assembly: Assembly, driven: DrivenPatch): Estimate {
  const freqHz = bandCentreHz(assembly.design);
  if (driven.shape === 'circle' && assembly.elements.length === 1) {
    const { heightM, permittivity } = driven;
    return circularPatchDirectivity(freqHz, effectiveRadius({ radiusM: driven.lengthM / 2, heightM, permittivity }));
  }
  return patchArrayDirectivity(patchArray(assembly, driven, freqHz));
}

/** Directivity less what the patch and the matched harness lose; mismatch is not in it. */
function gainLine(assembly: Assembly, directivity: Estimate, patch: PatchNumbers): EstimateLine {
  const efficiency = patch.quality.efficiency;
  const lossDb = assembly.harness.length === 0 ? 0 : matchedHarnessLossDb(assembly, bandCentreHz(assembly.design));
  const value = directivity.value + toDecibels(Math.min(1, efficiency.value)) - lossDb;
  const efficiencyDb = toDecibels((efficiency.value + errorInUnits(efficiency)) / efficiency.value);
  const error = absoluteError(
    Math.hypot(errorInUnits(directivity), efficiencyDb, 0.5 * lossDb),
    'Errors of directivity, efficiency and harness loss added as squares; mismatch is not in it.',
  );
  return lineOf({ ...directivity, value, error, unit: 'dBi' }, { what: GAIN_LINE, unit: 'dBi', digits: 1 });
}

function stackGaps(layers: number): string[] {
  return [
    `Closed forms do not hold for a stack of ${layers} patches: resonance, bandwidth and match of the whole stack need a field solution or a sweep. The numbers of the driven patch alone only show where to start.`,
  ];
}

function gaps(patch: PatchNumbers, directivity: Estimate): string[] {
  const all = [
    patch.resonance,
    patch.quality.quality,
    ...(patch.probeReactance ? [patch.probeReactance] : []),
    directivity,
  ];
  return [...new Set(all.flatMap((estimate) => estimate.leavesOut))];
}

/** Reflection at the coax over twice the band: the driven patch as a resonator, its probe in series, through the harness. */
function sweep(assembly: Assembly, patch: PatchNumbers): Response {
  const { design } = assembly;
  const { lowHz, highHz } = design.band;
  const half = (highHz - lowHz) / 2;
  const resonator = {
    resonanceHz: patch.resonance.value,
    quality: patch.quality.quality.value,
    resistanceOhm: Math.max(patch.feedResistance.value, 1e-3),
    seriesOhm: patch.probeReactance?.value ?? 0,
  };
  const load = (freqHz: number) => patchImpedance(resonator, freqHz);
  const tree = feedTree(assembly, load);
  return onePortResponse({
    origin: 'estimate',
    method: 'Closed forms: one resonator behind the probe of each element, joined by uniform lines without coupling.',
    error: {
      frequency: patch.resonance.error.kind === 'relative' ? patch.resonance.error.size : 0.02,
      origin: patch.resonance.error.origin,
    },
    freqHz: sweepFrequencies(Math.max(lowHz - half, lowHz / 2), highHz + half, POINTS),
    referenceOhm: design.coax.coax.impedanceOhm,
    impedance: (freqHz) => (tree ? treeInputImpedance(tree, freqHz) : load(freqHz)),
  });
}

function warning(code: string, path: string, text: { value: string; allowed: string; remedy: string }): Finding {
  return { code, severity: 'warning', path, ...text };
}

/** A single patch whose resonance cannot lie in its band even at the edge of the estimate's error. */
function bandFindings({ design }: Assembly, patch: PatchNumbers): Finding[] {
  if (design.layers.length > 1) return [];
  const { lowHz, highHz } = design.band;
  const error = errorInUnits(patch.resonance);
  if (patch.resonance.value + error >= lowHz && patch.resonance.value - error <= highHz) return [];
  const high = patch.resonance.value > highHz;
  return [
    warning('resonance-off-band', 'layer[0].length', {
      value: `a resonance of ${ghz(patch.resonance.value)} ± ${ghz(error)}`,
      allowed: `lies outside the band, ${ghz(lowHz)} to ${ghz(highHz)}`,
      remedy: high ? 'make the driven patch longer' : 'make the driven patch shorter',
    }),
  ];
}

function gainFindings({ design }: Assembly, gain: EstimateLine): Finding[] {
  const wanted = design.targets.gainDbi;
  // Parasitic patches add up to about 1.5 dB to an element (common practice, no source).
  const atBest = gain.value + gain.error + (design.layers.length > 1 ? 1.5 : 0);
  if (wanted === undefined || atBest >= wanted) return [];
  return [
    warning('gain-out-of-reach', 'targets.gain', {
      value: `${wanted} dBi`,
      allowed: `is out of reach: the estimate is ${gain.value.toFixed(1)} dBi, and at best ${atBest.toFixed(1)} dBi`,
      remedy: 'use more elements or a wider pitch',
    }),
  ];
}

/** A pitch near a wavelength throws part of the power sideways. */
function pitchFindings({ design }: Assembly, freqHz: number): Finding[] {
  const limitMm = gratingLobePitch(Math.max(freqHz, design.band.highHz)) * 1000;
  const { rows, columns, rowPitchMm, columnPitchMm } = design.lattice;
  const axes: [string, number, number][] = [
    ['lattice.row_pitch', rows, rowPitchMm],
    ['lattice.column_pitch', columns, columnPitchMm],
  ];
  return axes
    .filter(([, count, pitch]) => count > 1 && pitch > 0.9 * limitMm)
    .map(([path, , pitch]) =>
      warning('grating-lobe', path, {
        value: `${pitch} mm`,
        allowed: `is close to where side beams as strong as the main one appear, ${limitMm.toFixed(1)} mm`,
        remedy: `keep the pitch below ${(0.9 * limitMm).toFixed(1)} mm`,
      }),
    );
}

function ghz(hertz: number): string {
  return `${(hertz / 1e9).toFixed(3)} GHz`;
}
