import type { Design, Finding } from '@sheetwave/design';
import { gainWithin } from './gain-curve.ts';
import type { BandMatch, GainCurve } from './prediction.ts';

const ghz = (hertz: number): string => `${(hertz / 1e9).toFixed(3)} GHz`;

/** Where the prediction of the antenna as it is built misses what the design asks for. */
export function targetFindings(
  design: Design,
  { matches, gains }: { readonly matches: readonly BandMatch[]; readonly gains: readonly GainCurve[] },
): Finding[] {
  return [
    ...matches.flatMap((match) => matchFindings(design, match)),
    ...gains.flatMap((gain) => gainFindings(design, gain)),
  ];
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

function gainFindings({ targets, band }: Design, curve: GainCurve): Finding[] {
  const least = gainWithin(curve, band, 'realisedGainDbi')?.lowest;
  if (targets.gainDbi === undefined || least === undefined || least.dbi >= targets.gainDbi) return [];
  const without = gainWithin(curve, band, 'gainDbi')?.lowest.dbi ?? least.dbi;
  return [
    {
      code: 'gain-misses-target',
      severity: 'warning',
      path: 'targets.gain',
      value: `${least.dbi.toFixed(1)} dBi at ${ghz(least.freqHz)}`,
      allowed: `is below the target of ${targets.gainDbi} dBi (with mismatch; ${without.toFixed(1)} dBi at least without)`,
      remedy: 'improve the match, use more elements or a wider pitch, or accept it',
    },
  ];
}
