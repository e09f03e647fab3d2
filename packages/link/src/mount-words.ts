import type { CoverChange } from '@sheetwave/predict';
import { bullet, db, metres, tidy } from './number-words.ts';
import type { Link, LinkEnd } from './plan-link.ts';

const BODIES = { icnirp: 'ICNIRP 2020', us: '47 CFR 1.1310' } as const;

/** Distances to keep, loads on the mount and what a cover does. */
export function mountLines(link: Link): string[] {
  const { near, far, massKg, cover, coverSolved } = link;
  const ends = [near, far].flatMap((end) => [exposureWords(end), ...windWords(end)]);
  const mass =
    massKg === undefined
      ? []
      : [`the antenna weighs ${tidy(massKg, 2)} kg with its coax, without box, pole clamp and solder`];
  return [...ends, ...mass, ...(cover === undefined ? [] : coverWords(cover, coverSolved))].map(bullet);
}

function exposureWords({ name, exposure, gainErrorDb }: LinkEnd): string {
  const each = exposure.map(
    ({ body, wPerM2, openM, reflectedM }) =>
      `${metres(openM, 2)}, or ${metres(reflectedM, 2)} where the ground reflects (${BODIES[body]}, ${tidy(wPerM2, 1)} W/m²)`,
  );
  const alike = new Set(exposure.map(({ reflectedM }) => reflectedM)).size === 1;
  const told = alike
    ? each[0]?.replace(BODIES[exposure[0]?.body ?? 'icnirp'], Object.values(BODIES).join(' and '))
    : each.join('; ');
  const close = exposure.some(({ inNearField }) => inNearField)
    ? '; that is in the near field, where this overstates: keep to it all the same'
    : '';
  const highest = gainErrorDb > 0 ? ', with the highest gain that it may have' : '';
  return `${name}: keep people further than ${told} from the front${highest}${close}`;
}

function windWords({ name, wind }: LinkEnd): string[] {
  if (wind === undefined) return [];
  const { speedMPerS, pressurePa, drag, areaM2, forceN } = wind;
  return [
    `${name}: a gust of ${tidy(speedMPerS, 0)} m/s presses ${tidy(pressurePa, 0)} Pa and pushes the reflector (${tidy(areaM2, 3)} m², drag ${drag}) with ${tidy(forceN, 0)} N; pole, box and ice come on top`,
  ];
}

function coverWords(
  { reflection, lossDb, shift, holds }: NonNullable<Link['cover']>,
  solved: Link['coverSolved'],
): string[] {
  const wave = `the cover throws back ${Math.round(reflection * 100)} % of the field and takes ${db(lossDb)}`;
  if (shift === undefined) return [`${wave}; without a design its shift is not known`];
  const most = tidy(shift.mostHz / 1e6, 0);
  const first = `to first order it moves a single resonance as wide as the band by ${tidy(shift.hz / 1e6, 0)} MHz at this distance, and by ${most} MHz at the worst one`;
  if (solved !== undefined) return [`${wave}; ${first}`, solvedWords(solved)];
  const near = holds
    ? '; stacks of several patches can move by more'
    : '; it lies within a tenth of a wavelength, in the near field of the patches, where only a field calculation or a sweep with the cover on tells';
  return [`${wave}; ${first}${near}`, 'sheetwave cover works out what it does by field solutions of this very antenna'];
}

function solvedWords({
  modes,
  bestMatchHz,
  worstVswr,
  leastRealisedGainDbi,
  quality,
}: NonNullable<Link['coverSolved']>): string {
  const [main] = modes;
  const change = ({ without, with: withIt, error }: CoverChange, factor: number, digits: number) => {
    const off = error === undefined ? '' : ` ± ${tidy(error * factor, digits)}`;
    const moved = tidy((withIt - without) * factor, digits);
    return `${withIt > without ? '+' : ''}${moved}${off}`;
  };
  const what = main === undefined ? 'best match' : 'strongest resonance';
  const at = `${((main?.freqHz ?? bestMatchHz).without / 1e9).toFixed(3)} GHz`;
  const shift = `moves the ${what}, ${at}, by ${change(main?.freqHz ?? bestMatchHz, 1e-6, 0)} MHz`;
  const vswr = `takes the worst VSWR over the band from ${tidy(worstVswr.without, 2)} to ${tidy(worstVswr.with, 2)}`;
  return `by field solutions with and without it (${quality} grid) it ${shift}, ${vswr} and changes the lowest gain with mismatch by ${change(leastRealisedGainDbi, 1, 1)} dB, which the budget leaves out`;
}
