import type { Design, Finding } from '@sheetwave/design';
import type { BandMatch, FarFieldFigures } from './prediction.ts';

const ghz = (hertz: number): string => `${(hertz / 1e9).toFixed(3)} GHz`;

/** Where the prediction of the antenna as it is built misses what the design asks for. */
export function targetFindings(
  design: Design,
  { matches, figures }: { readonly matches: readonly BandMatch[]; readonly figures: readonly FarFieldFigures[] },
): Finding[] {
  return [...matches.flatMap((match) => matchFindings(design, match)), ...gainFindings(design, figures)];
}

function matchFindings({ targets }: Design, { worstVswr, worstHz, bestVswr, bestHz }: BandMatch): Finding[] {
  if (worstVswr <= targets.vswr) return [];
  return [
    {
      code: 'match-misses-target',
      severity: 'warning',
      path: 'targets.vswr',
      value: `VSWR ${worstVswr.toFixed(2)} at ${ghz(worstHz)}`,
      allowed: `is above the target of ${targets.vswr}; the best match is ${bestVswr.toFixed(2)} at ${ghz(bestHz)}`,
      remedy: 'change the lengths of the patches, the feed point or the harness, or accept it',
    },
  ];
}

function gainFindings({ targets, band }: Design, figures: readonly FarFieldFigures[]): Finding[] {
  const inBand = figures.filter(({ freqHz }) => freqHz >= band.lowHz && freqHz <= band.highHz);
  if (targets.gainDbi === undefined || inBand.length === 0) return [];
  const least = inBand.reduce((a, b) => (b.realisedGainDbi < a.realisedGainDbi ? b : a));
  if (least.realisedGainDbi >= targets.gainDbi) return [];
  return [
    {
      code: 'gain-misses-target',
      severity: 'warning',
      path: 'targets.gain',
      value: `${least.realisedGainDbi.toFixed(1)} dBi at ${ghz(least.freqHz)}`,
      allowed: `is below the target of ${targets.gainDbi} dBi (with mismatch; ${least.gainDbi.toFixed(1)} dBi without)`,
      remedy: 'improve the match, use more elements or a wider pitch, or accept it',
    },
  ];
}
