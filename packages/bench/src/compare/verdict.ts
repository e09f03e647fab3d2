import { ghz, mhz, ratioText } from '../sweep/words.ts';
import type { Comparison } from './compare.ts';
import type { FeaturePair } from './pair-features.ts';
import type { FeatureKind, Side } from './side.ts';

export const KIND_WORDS: Readonly<Record<FeatureKind, string>> = {
  'least-reflection': 'least reflection',
  'resistance-peak': 'highest resistance',
  'reactance-rising': 'reactance zero, rising',
  'reactance-falling': 'reactance zero, falling',
};

const ORIGIN_WORDS: Readonly<Record<Side['origin'], string>> = {
  estimate: 'estimated',
  prediction: 'predicted',
  measurement: 'measured before',
};

/** What the comparison means, in sentences: the target first, then the resonance, then the bandwidth. */
export function verdictOf(comparison: Omit<Comparison, 'verdict'>): readonly string[] {
  return [...target(comparison), ...resonance(comparison), ...width(comparison), ...missing(comparison)];
}

function target({ measured, band, targetVswr, meetsTarget }: Omit<Comparison, 'verdict'>): readonly string[] {
  const { inBand } = measured;
  const wanted = `${ghz(band.lowHz)} to ${ghz(band.highHz)}`;
  if (inBand === undefined) return [`The sweep has nothing in the band, ${wanted}: it says nothing of the target.`];
  const worst = `VSWR ${ratioText(inBand.worst.vswr)} at ${ghz(inBand.worst.freqHz)}`;
  if (meetsTarget === true)
    return [`The target is met: over the band, ${wanted}, it is at worst ${worst}, and ${targetVswr} is wanted.`];
  if (meetsTarget === false) {
    const best = `${ratioText(inBand.best.vswr)} at ${ghz(inBand.best.freqHz)}`;
    return [
      `The target is missed: in the band, ${wanted}, it goes up to ${worst} (best ${best}), and ${targetVswr} is wanted.`,
    ];
  }
  return [
    `As far as the sweep goes (${ghz(inBand.lowHz)} to ${ghz(inBand.highHz)}), it is at worst ${worst}, within the ${targetVswr} wanted; the rest of the band was not swept.`,
  ];
}

/** The pair to speak of: the least reflection nearest to the middle of the band. */
export function mainPair({ pairs, band }: Pick<Comparison, 'pairs' | 'band'>): FeaturePair | undefined {
  const middle = (band.lowHz + band.highHz) / 2;
  const off = ({ predictedHz }: FeaturePair) => Math.abs(predictedHz - middle);
  return pairs
    .filter(({ kind }) => kind === 'least-reflection')
    .reduce<FeaturePair | undefined>(
      (best, pair) => (best === undefined || off(pair) < off(best) ? pair : best),
      undefined,
    );
}

function resonance(comparison: Omit<Comparison, 'verdict'>): readonly string[] {
  const { predicted, frequencyError } = comparison;
  const pair = mainPair(comparison);
  if (pair === undefined || predicted === undefined) return [];
  const { measuredHz, predictedHz, differenceHz, differencePercent, withinError } = pair;
  const side = differenceHz < 0 ? 'low' : 'high';
  const by = `${mhz(Math.abs(differenceHz))} (${Math.abs(differencePercent).toFixed(1)} %) too ${side}`;
  const head = `It reflects least at ${ghz(measuredHz)} where ${ghz(predictedHz)} was ${ORIGIN_WORDS[predicted.origin]}: ${by}`;
  if (withinError === undefined || frequencyError === undefined)
    return [`${head}. No error was stated to judge that by.`];
  const stated = `the stated error of ${mhz(frequencyError * predictedHz)}`;
  return [
    withinError
      ? `${head}, within ${stated}.`
      : `${head}, more than ${stated}: look for what was built otherwise than designed.`,
  ];
}

function width({ measured, predicted, widthDifferenceHz }: Omit<Comparison, 'verdict'>): readonly string[] {
  const own = measured.atTwo;
  if (own === undefined) return ['Its VSWR is nowhere 2 or better.'];
  const open = own.lowSeen && own.highSeen ? '' : ', as far as the sweep goes';
  const head = `Up to VSWR 2 it reaches from ${ghz(own.lowHz)} to ${ghz(own.highHz)}: ${mhz(own.widthHz)} or ${own.percent.toFixed(1)} %${open}`;
  if (predicted === undefined || predicted.atTwo === undefined || widthDifferenceHz === undefined) return [`${head}.`];
  const side = widthDifferenceHz < 0 ? 'less' : 'more';
  return [`${head}, ${mhz(Math.abs(widthDifferenceHz))} ${side} than ${ORIGIN_WORDS[predicted.origin]}.`];
}

function missing({ predicted, onlyPredicted, onlyMeasured, pairs }: Omit<Comparison, 'verdict'>): readonly string[] {
  if (predicted === undefined)
    return [
      'There is nothing to compare it with: closed forms do not hold for this design, and no prediction was given.',
    ];
  const dips = (list: typeof onlyPredicted) => list.filter(({ kind }) => kind === 'least-reflection');
  if (pairs.length > 0 && dips(onlyPredicted).length === 0 && dips(onlyMeasured).length === 0) return [];
  const say = (list: typeof onlyPredicted) =>
    dips(list)
      .map(({ freqHz }) => ghz(freqHz))
      .join(', ');
  return [
    ...(dips(onlyPredicted).length > 0
      ? [`Not found in the sweep: the dip ${ORIGIN_WORDS[predicted.origin]} at ${say(onlyPredicted)}.`]
      : []),
    ...(dips(onlyMeasured).length > 0 ? [`In the sweep only: a dip at ${say(onlyMeasured)}.`] : []),
  ];
}
