import type { AntennaGain } from './antenna-gain.ts';
import type { RateMargin } from './budget.ts';
import { legalLines } from './legal-words.ts';
import { linkCautions } from './link-cautions.ts';
import { mountLines } from './mount-words.ts';
import { bullet, db, metres, signedDb, tidy, titled } from './number-words.ts';
import type { PathReport, SecondRayLoss } from './path-loss.ts';
import type { Link } from './plan-link.ts';

/** A link for a person at a terminal: does it close, at which rate, what limits it, what is legal, who stays away, what the wind does. */
export function linkWords(link: Link): string {
  const blocks = [
    heading(link),
    titled('The path', pathLines(link)),
    titled('The budget', budgetLines(link)),
    titled('Rates', rateLines(link)),
    titled('What is legal', legalLines(link)),
    titled('People, wind and mass', mountLines(link)),
    titled('Cautions', linkCautions().map(bullet)),
  ];
  return `${blocks.join('\n\n')}\n`;
}

function heading(link: Link): string {
  const { name, date, freqHz, widthHz, channel, wanted, path, marginErrorDb } = link;
  const where = `${metres(path.distanceM)} at ${Number((freqHz / 1e9).toFixed(4))} GHz`;
  const wide = `${channel === undefined ? '' : `, channel ${channel}`}, ${widthHz / 1e6} MHz wide`;
  const first = `${name}${date === undefined ? '' : `, ${date}`}: ${where}${wide}`;
  const rate = `${megabits(wanted)} needs ${db(wanted.wantedMarginDb)} of margin and has ${signedDb(wanted.marginDb)}`;
  const doubt = marginErrorDb === 0 ? '' : ` ± ${db(marginErrorDb)} by ${gainSource(link)}`;
  return `${first}\n${verdict(link)}: ${rate}${doubt}. ${limiting(link)}`;
}

function verdict({ closes, closesSurely, region, legalMarginDb, wanted }: Link): string {
  if (!closes) return 'The link does not close';
  const head = closesSurely ? 'The link closes' : 'The link closes, but not for sure';
  if (region === undefined) return `${head}, and nothing is said about what is legal`;
  if (legalMarginDb === undefined) return `${head}, but no rule of the table lets it be used as it is described`;
  return legalMarginDb < wanted.wantedMarginDb
    ? `${head} and only with more power than is surely legal`.replace(
        'The link closes and only',
        'The link closes only',
      )
    : head;
}

const gainSource = ({ designGain }: Link): string =>
  designGain?.method === 'field solution' ? 'the field solution of the antenna' : 'the estimate of its gain';

const megabits = ({ bitsPerSecond }: Pick<RateMargin, 'bitsPerSecond'>): string =>
  `${Number((bitsPerSecond / 1e6).toFixed(1))} Mbit/s`;

const PLURALS = new Set(['obstacles in the way', 'leaves', 'cables']);

/** What takes most beyond free space, or what is needed. */
function limiting({ closes, path, gainNeeded, near, far, legalMarginDb, wanted }: Link): string {
  const { loss } = path;
  const parts: readonly (readonly [string, number])[] = [
    ['obstacles in the way', loss.edgeDb],
    ['leaves', loss.foliageDb],
    ['the second ray', loss.secondRayDb],
    ['rain', loss.rainDb],
    ['cables', near.cableDb + far.cableDb],
    ['the mismatch of the antennas', near.mismatchDb + far.mismatchDb],
  ];
  const [what, most] = parts.reduce((a, b) => (b[1] > a[1] ? b : a));
  const taker =
    most < 1
      ? 'Free space is nearly all of the loss.'
      : `Beyond free space, ${what} take${PLURALS.has(what) ? '' : 's'} most, ${db(most)}.`;
  const lawful =
    legalMarginDb !== undefined && closes && legalMarginDb < wanted.wantedMarginDb
      ? ` At legal power ${signedDb(legalMarginDb)} is left.`
      : '';
  if (closes) return `${taker}${lawful}`;
  return `${taker} It would take ${gainNeeded.eachDbi.toFixed(1)} dBi at each end, or ${gainNeeded.farAloneDbi.toFixed(1)} dBi at ${far.name} alone.`;
}

function pathLines({ path, near, far, polarisation }: Link): string[] {
  const { ends, loss, clearance, lowClearance, clear, rain, edges, edgeMethod, secondRay } = path;
  const tight = `${metres(clearance.clearanceM)} at ${metres(clearance.atM)}, ${percent(clearance.share)} of the first Fresnel zone (${metres(clearance.zoneM)})`;
  const lines = [
    `${near.name} ${metres(ends.nearM)} and ${far.name} ${metres(ends.farM)} above the zero of the site, ${polarisation} field`,
    `clearance where it is tightest: ${tight}; ${clear ? '60 % is clear, as it should be' : 'less than the 60 % that should be clear'}`,
    `in the worst hours of the air (k = 0.6): ${percent(lowClearance.share)}, ${db(path.lowEdgeDb)} by edges`,
    `free space ${db(loss.freeSpaceDb)}, edges ${db(loss.edgeDb)}, rain ${db(loss.rainDb)}, leaves ${db(loss.foliageDb)}, second ray ${db(loss.secondRayDb)}: ${db(loss.totalDb)}`,
  ];
  if (rain !== undefined) {
    lines.push(
      `rain of ${tidy(rain.rateMmPerHour, 0)} mm/h takes ${tidy(rain.dbPerKm, 2)} dB/km (ITU-R P.838-3) over an effective ${metres(rain.effectiveM)} (P.530-17); the rate that is passed for 0.01 % of the year where the path lies is yours to give`,
    );
  }
  if (edges.length > 0) {
    const list = edges.map(({ atM }) => metres(atM)).join(' and ');
    lines.push(`in the way or near it: ${list}; counted by ITU-R P.526-15, ${METHODS[edgeMethod]}`);
  }
  lines.push(...secondRayLines(secondRay, path, far.name));
  lines.push('gases take below 0.01 dB per km at these frequencies and are left out');
  return lines.map(bullet);
}

const METHODS: Readonly<Record<PathReport['edgeMethod'], string>> = {
  clear: 'nothing',
  'single edge': 'as a single sharp edge (4.1), sure to a decibel or two',
  'two edges': 'as two sharp edges (4.4), sure to a few decibels',
  terrain: 'as terrain of many edges (4.5.2), whose constant is fitted to long paths: sure to several decibels',
};

function secondRayLines(ray: SecondRayLoss | undefined, { clearance }: PathReport, far: string): string[] {
  if (ray === undefined) return clearance.share > 0 ? [] : ['no second ray is counted, as the straight one is cut'];
  const now = ray.lossDb > 0 ? `takes ${db(ray.lossDb)}` : `adds ${db(-ray.lossDb)}, which is not counted`;
  const move = `${far} ${metres(Math.abs(ray.moveFarM), 2)} ${ray.moveFarM < 0 ? 'lower' : 'higher'} would be best`;
  return [
    `the ray off the ${ray.surface} at ${metres(ray.pointM)} (${percent(ray.reflection)} of the field) ${now} at these heights; ${move}; the deepest fade is ${db(ray.deepestDb)}, and a change of level moves it`,
  ];
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;

function budgetLines({ near, far, budget, marginErrorDb, designGain }: Link): string[] {
  const design = designGain?.method === 'field solution' ? 'predicted' : 'estimated';
  const from = { site: 'as given', design, 'as near': `as at ${near.name}` } as const;
  const end = ({ name, powerDbm, cableDb, gainDbi, gainErrorDb, mismatchDb, gainFrom }: Link['near']) => {
    const off = gainErrorDb > 0 ? ` ± ${tidy(gainErrorDb, 1)} dB` : '';
    const back = mismatchDb > 0 ? `, mismatch ${db(mismatchDb)}` : '';
    return `${name}: ${tidy(powerDbm, 1)} dBm, cable ${db(cableDb)}${back}, gain ${tidy(gainDbi, 1)} dBi${off} ${from[gainFrom]}`;
  };
  const way = (name: string, { receivedDbm, overNoiseDb }: Link['budget']['toFar']) =>
    `at ${name} arrive ${tidy(receivedDbm, 1)} dBm, ${tidy(overNoiseDb, 1)} dB above the noise`;
  const lines = [end(near), end(far), way(far.name, budget.toFar), way(near.name, budget.toNear)];
  if (marginErrorDb > 0)
    lines.push(`all of it ± ${marginErrorDb.toFixed(1)} dB from gain and mismatch of both antennas`);
  return [...lines, ...gainLines(designGain)].map(bullet);
}

/** Which gain was taken, and how to get a better one. */
function gainLines(gain: AntennaGain | undefined): string[] {
  if (gain === undefined) return [];
  if (gain.method === 'closed forms') {
    return [
      'the gain is that of closed forms: no mismatch, and little of parasitic patches; run sheetwave predict on the design, and its field solution is taken instead',
    ];
  }
  const taken = `the gain is that of the field solution that sheetwave predict kept (${gain.quality} grid), in the main beam: aim the antenna by its signal`;
  if (gain.meshChecked) return [`${taken}; its error is from a second grid`];
  const better = gain.quality === 'draft' ? '--quality normal --check-mesh' : '--check-mesh';
  return [`${taken}; sheetwave predict ${better} states its error better`];
}

function rateLines(link: Link): string[] {
  const { budget, wanted, fastest, availability } = link;
  const width = Math.max(...budget.rates.map((rate) => megabits(rate).length));
  const rows = budget.rates.map((rate) => {
    const note = rate.marginDb < 0 ? 'out of reach' : rate.marginDb < wanted.wantedMarginDb ? 'thin' : 'good';
    return `  ${megabits(rate).padStart(width)}  ${tidy(rate.sensitivityDbm, 0).padStart(4)} dBm  ${signedDb(rate.marginDb).padStart(9)}  ${note.padEnd(12)}  ${rate.name}`.trimEnd();
  });
  const best =
    fastest === undefined ? 'no rate has the wanted margin' : `fastest with the wanted margin: ${megabits(fastest)}`;
  const air =
    availability === undefined
      ? []
      : [`outage of ${megabits(wanted)}: ${outage(availability.outagePercent)} (${availability.model})`];
  return [...rows, ...[best, ...air].map(bullet)];
}

const outage = (value: number): string => (value === 0 ? 'none' : `${Number(value.toPrecision(2))} % of the time`);
