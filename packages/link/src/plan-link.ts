import type { Finding, Site } from '@sheetwave/design';
import type { CoverPrediction } from '@sheetwave/predict';
import { wavelength } from '@sheetwave/rf';
import type { LinkAntenna } from './antenna.ts';
import type { AntennaGain } from './antenna-gain.ts';
import { type Availability, availabilityOf } from './availability.ts';
import { type Budget, type BudgetEnd, budgetOf, type RateMargin } from './budget.ts';
import { type Checked, checkLink } from './check-link.ts';
import { type EndLegality, legalityOf } from './legal.ts';
import { type CoverEffect, coverEffect, type Exposure, exposuresOf, type WindLoad, windOn } from './mount.ts';
import { type PathReport, pathReport } from './path-loss.ts';

/** One end of the planned link. */
export interface LinkEnd extends BudgetEnd {
  readonly name: string;
  /** How far the gain may be off either way; 0 for one that the site gives. */
  readonly gainErrorDb: number;
  readonly mismatchErrorDb: number;
  /** The most that can be radiated: with all of the gain's error, and nothing lost by mismatch. */
  readonly mostEirpDbm: number;
  /** Where its gain comes from. */
  readonly gainFrom: 'site' | 'design' | 'as near';
  readonly reflector: { readonly widthM: number; readonly heightM: number } | undefined;
  /** Undefined without a region. */
  readonly legality: EndLegality | undefined;
  readonly exposure: readonly Exposure[];
  readonly wind: WindLoad | undefined;
}

/** Everything about a link. SI units but for decibels; degrees where a name says so. */
export interface Link {
  readonly name: string;
  readonly date: string | undefined;
  readonly freqHz: number;
  readonly widthHz: number;
  readonly channel: number | undefined;
  readonly wavelengthM: number;
  readonly polarisation: 'vertical' | 'horizontal';
  readonly near: LinkEnd;
  readonly far: LinkEnd;
  /** What the gain of the design rests on; undefined when the site gives all gains. */
  readonly designGain: AntennaGain | undefined;
  /** How far every margin may be off by the gains and mismatches of both ends; 0 for gains that the site gives. */
  readonly marginErrorDb: number;
  readonly path: PathReport;
  readonly budget: Budget;
  readonly wanted: RateMargin & { readonly wantedMarginDb: number };
  /** The wanted rate has its margin. */
  readonly closes: boolean;
  /** It has it even when the gains are off by all of their error. */
  readonly closesSurely: boolean;
  /** The fastest rate with that margin. */
  readonly fastest: RateMargin | undefined;
  /** What the gains would have to be. */
  readonly gainNeeded: { readonly eachDbi: number; readonly nearAloneDbi: number; readonly farAloneDbi: number };
  /** Margin of the wanted rate with both powers lowered to what is surely legal; undefined without a region or a usable rule. */
  readonly legalMarginDb: number | undefined;
  readonly region: string | undefined;
  readonly availability: Availability | undefined;
  readonly cover: CoverEffect | undefined;
  /** What field solutions say of the cover; undefined without any. */
  readonly coverSolved: CoverPrediction | undefined;
  /** Of the antenna that the design makes. */
  readonly massKg: number | undefined;
}

export interface LinkPlan {
  readonly link: Link | undefined;
  /** Paths are those of the site file. */
  readonly findings: readonly Finding[];
}

export interface LinkQuestion {
  readonly site: Site;
  /** The antenna of a design, or undefined for a link planned before there is one. */
  readonly antenna: LinkAntenna | undefined;
  /** Field solutions of that antenna in the cover of the site, where there are any. */
  readonly cover?: CoverPrediction | undefined;
}

/** Works a link out, or says what stands against it. Pure. */
export function planLink(question: LinkQuestion): LinkPlan {
  const { checked, findings } = checkLink(question);
  if (checked === undefined) return { link: undefined, findings };
  const link = linkOf(question, checked);
  return { link, findings: [...findings, ...afterwards(link)] };
}

function linkOf({ site, antenna, cover }: LinkQuestion, checked: Checked): Link {
  const { freqHz, widthHz, channel, near, far, polarisation } = checked;
  const path = pathReport(site, freqHz, polarisation);
  const budget = budgetOf(site, { near, far }, path.loss.totalDb);
  const { marginDb: wantedMarginDb } = site.wanted;
  const wanted = wantedRate(budget, site);
  const missing = wantedMarginDb - wanted.marginDb;
  // Two antennas of one design are off together.
  const doubtOf = (end: Checked['near']) => end.gainErrorDb + end.mismatchErrorDb;
  const marginErrorDb = doubtOf(near) + doubtOf(far);
  const ends = { near: endOf(near, checked, site), far: endOf(far, checked, site) };
  return {
    name: site.name,
    date: site.date,
    freqHz,
    widthHz,
    channel,
    wavelengthM: wavelength(freqHz),
    polarisation,
    ...ends,
    designGain: checked.designGain,
    marginErrorDb,
    path,
    budget,
    wanted: { ...wanted, wantedMarginDb },
    closes: missing <= 0,
    closesSurely: missing + marginErrorDb <= 0,
    fastest: [...budget.rates].reverse().find(({ marginDb }) => marginDb >= wantedMarginDb),
    gainNeeded: {
      eachDbi: (near.gainDbi + far.gainDbi + missing) / 2,
      nearAloneDbi: near.gainDbi + missing,
      farAloneDbi: far.gainDbi + missing,
    },
    legalMarginDb: legalMargin(ends, budget, wanted),
    region: checked.region,
    availability: availabilityOf(site, freqHz, wanted.marginDb),
    cover: site.cover && coverEffect(site.cover, freqHz, antenna),
    coverSolved: site.cover && cover,
    massKg: antenna?.massKg,
  };
}

function wantedRate({ rates }: Budget, { wanted }: Site): RateMargin {
  const rate = rates.find(({ bitsPerSecond }) => bitsPerSecond >= (wanted.bitsPerSecond ?? 0) - 0.5);
  if (rate === undefined) throw new Error('the wanted rate was checked against the rates of the radio');
  return rate;
}

function endOf(end: Checked['near'], checked: Checked, site: Site): LinkEnd {
  const { freqHz, widthHz, region } = checked;
  const { reflector, powerDbm, cableDb, gainDbi, gainErrorDb } = end;
  const mostDbi = gainDbi + gainErrorDb;
  const mostEirpDbm = powerDbm - cableDb + mostDbi;
  const legality =
    region &&
    legalityOf({
      region,
      conditions: site.rules?.conditions ?? [],
      channel: { lowHz: freqHz - widthHz / 2, highHz: freqHz + widthHz / 2 },
      emission: { gainDbi: mostDbi, cableDb, widthHz, controlsPower: site.radio.controlsPower },
      powerDbm,
    });
  return {
    ...end,
    mostEirpDbm,
    legality: legality || undefined,
    exposure: exposuresOf(mostEirpDbm, freqHz, reflector && Math.max(reflector.widthM, reflector.heightM)),
    wind: reflector && windOn(reflector, site.wind.speedMPerS),
  };
}

/** Both directions with no more than what the best usable rule allows at each end. */
function legalMargin(
  ends: { readonly near: LinkEnd; readonly far: LinkEnd },
  budget: Budget,
  wanted: RateMargin,
): number | undefined {
  const cut = ({ legality }: LinkEnd) => legality?.best?.marginDb && Math.min(0, legality.best.marginDb);
  const [near, far] = [cut(ends.near), cut(ends.far)];
  if (near === undefined || far === undefined) return undefined;
  const weaker = Math.min(budget.toFar.receivedDbm + near, budget.toNear.receivedDbm + far);
  return weaker - wanted.sensitivityDbm;
}

/** What is worth knowing once the numbers are there. */
function afterwards(link: Link): Finding[] {
  return (['near', 'far'] as const).flatMap((side): Finding[] => {
    const { legality, gainErrorDb } = link[side];
    const { best, powerDbm = 0, settingDbm } = legality ?? {};
    if (best?.marginDb === undefined || best.marginDb >= -1e-6) return [];
    return [
      {
        code: 'power-above-limit',
        severity: 'warning',
        path: side,
        value: `${round(powerDbm)} dBm`,
        allowed: `is more than ${best.id} allows with ${gainErrorDb > 0 ? 'the highest gain that it may have' : 'this gain'} (${best.source})`,
        remedy: `set the radio to ${settingDbm} dBm or less, and check with your regulator`,
      },
    ];
  });
}

const round = (value: number): number => Number(value.toFixed(1));
