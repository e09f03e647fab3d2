import type { Design } from '@sheetwave/design';
import { gainWithin } from '../gain-curve.ts';
import { bandCentreHz } from '../harness-model.ts';
import type { BandMatch, MatchedBand, Prediction } from '../prediction.ts';
import { fixed, ghz, percent, ratio } from './format.ts';

/**
 * What to do next, most important first. Directions are those of any patch: it resonates lower when it is longer, and its
 * resistance falls from the edge to the centre (Balanis, Antenna Theory, section 14.2.1 D). Sizes are first steps, to be predicted again.
 */
export function nextSteps(design: Design, prediction: Prediction): readonly string[] {
  return [
    ...matchSteps(design, prediction),
    ...gainSteps(design, prediction),
    ...trustSteps(prediction),
    'Before the last file stroke: cut patches a little long, sweep, and file; the sweep decides.',
  ];
}

function matchSteps(design: Design, prediction: Prediction): readonly string[] {
  if (prediction.feed === 'each-element' && prediction.ports.length > 1)
    return ['These are the elements alone. Predict the antenna as built (--feed as-built) for the match at the coax.'];
  const [match] = prediction.matches;
  if (match === undefined) return [];
  const { vswr } = design.targets;
  if (match.worstVswr <= vswr) return [metWords(match, vswr, prediction)];
  const band = widest(prediction.bands, vswr) ?? widest(prediction.bands, 2);
  return band === undefined ? unmatchedSteps(match, prediction) : offCentreSteps(design, match, band);
}

function metWords(match: BandMatch, vswr: number, { response }: Prediction): string {
  const error = response.error.frequency ?? 0;
  const spare = `the error of ${percent(error)} is ${fixed((error * (match.lowHz + match.highHz)) / 2e6, 0)} MHz either way`;
  return `The match meets VSWR ${fixed(vswr, 2)} over the whole band (worst ${ratio(match.worstVswr)}). ${error > 0 ? `Look at the diagram for what is to spare at its edges: ${spare}.` : ''}`.trim();
}

function widest(bands: readonly MatchedBand[], vswr: number): MatchedBand | undefined {
  return bands
    .filter((band) => band.port === 0 && Math.abs(band.vswr - vswr) < 1e-9)
    .reduce<MatchedBand | undefined>((a, b) => (a !== undefined && a.percent >= b.percent ? a : b), undefined);
}

/** Smaller shifts than this are within what a file does anyway. */
const LEAST_SHIFT = 0.002;

function offCentreSteps(design: Design, match: BandMatch, band: MatchedBand): readonly string[] {
  const wanted = bandCentreHz(design);
  const found = (band.lowHz + band.highHz) / 2;
  const shift = wanted / found - 1;
  const miss = `The match misses VSWR ${fixed(design.targets.vswr, 2)} in the band: ${ratio(match.worstVswr)} at ${ghz(match.worstHz)}.`;
  if (Math.abs(shift) < LEAST_SHIFT)
    return [`${miss} It lies in the middle of the band but is too narrow or not good enough: ${WIDER}`];
  const side = shift > 0 ? 'low' : 'high';
  const change = shift > 0 ? 'shorter' : 'longer';
  return [
    `${miss} The matched stretch (VSWR ${fixed(band.vswr, 2)}) is centred on ${ghz(found)}, ${percent(Math.abs(shift))} too ${side}: make the resonant sizes about ${percent(Math.abs(found / wanted - 1))} ${change}${drivenWords(design, shift)}, all layers alike, and predict again.`,
  ];
}

const WIDER = 'a higher spacer widens it, a parasitic layer more so; the feed distance deepens it.';

function drivenWords({ layers }: Design, shift: number): string {
  const shape = layers[0]?.shape;
  if (shape?.kind !== 'rectangle') return '';
  const { lengthMm } = shape;
  return ` (the driven patch from ${fixed(lengthMm, 1)} to about ${fixed(lengthMm / (1 + shift), 1)} mm)`;
}

function unmatchedSteps(match: BandMatch, { resonances, ports }: Prediction): readonly string[] {
  const never = `The match is never good: VSWR ${ratio(match.bestVswr)} at best, at ${ghz(match.bestHz)}.`;
  const reference = ports[0]?.referenceOhm ?? 50;
  const at = resonances.find(({ port, kind }) => port === 0 && kind === 'reactance-zero')?.zOhm;
  if (at === undefined)
    return [
      `${never} The reactance never passes zero in the sweep: a long probe or a thick gap makes it inductive. Look at the Smith chart; a shorter probe, a slot or a smaller gap brings it down.`,
    ];
  const way =
    at.re > reference
      ? 'move the feed toward the centre of the patch, or lower the resistance that the harness sees'
      : 'move the feed toward the edge of the patch, or raise the resistance that the harness sees';
  return [
    `${never} At resonance the resistance is ${fixed(at.re, 0)} ohm of ${fixed(reference, 0)}: ${way}, and predict again.`,
  ];
}

function gainSteps({ targets, band }: Design, { gains, response }: Prediction): readonly string[] {
  const wanted = targets.gainDbi;
  const own = gains.find(({ port }) => port === 0);
  const least = own && gainWithin(own, band, 'realisedGainDbi')?.lowest;
  if (wanted === undefined || least === undefined) return [];
  const error = response.error.gainDb ?? 0;
  if (least.dbi + error >= wanted) return [];
  return [
    `The gain of ${fixed(least.dbi, 1)} dBi at ${ghz(least.freqHz)}, mismatch included, is below the target of ${fixed(wanted, 1)} dBi: better match first, then more elements or a wider pitch.`,
  ];
}

function trustSteps({ quality, meshError }: Prediction): readonly string[] {
  if (quality === 'draft')
    return ['This is a draft, to compare ideas by. Predict again with --quality normal before you cut.'];
  if (meshError === undefined && quality === 'normal')
    return ['Before you buy the metal, predict once more with --check-mesh: it states the error that the grid leaves.'];
  return [];
}
