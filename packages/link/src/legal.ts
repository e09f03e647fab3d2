import {
  type Emission,
  type LegalPower,
  legalPower,
  RADIO_RULES,
  type RadioRule,
  REGIONS,
  type Region,
  rulesFor,
} from '@sheetwave/rf';

/** One rule, and what it would allow at one end. */
export interface RuleAnswer {
  readonly id: string;
  readonly service: string;
  readonly source: string;
  readonly edition: string;
  readonly certainty: RadioRule['certainty'];
  readonly notes: readonly string[];
  /** What it asks for that the site does not say; empty for a rule that may be used. */
  readonly needs: readonly string[];
  /** Undefined where the table has no number. */
  readonly legal: LegalPower | undefined;
  /** Legal power less the power that is set; negative when too much is sent. */
  readonly marginDb: number | undefined;
}

/** What the rules of a region say of one end, with the highest gain that its antenna may have. */
export interface EndLegality {
  readonly powerDbm: number;
  /** With that gain. */
  readonly eirpDbm: number;
  /** The rule that allows most among those that may be used; undefined when none may. */
  readonly best: RuleAnswer | undefined;
  /** Highest whole setting in dBm under it. */
  readonly settingDbm: number | undefined;
  readonly rules: readonly RuleAnswer[];
}

export const isRegion = (word: string): word is Region => REGIONS.some((region) => region === word);

/** Bands of a region in the table, as `5150-5250 MHz`, each once and in order. */
export function bandsOf(region: Region): string[] {
  const bands = RADIO_RULES.filter((rule) => rule.region === region).map(
    ({ lowHz, highHz }) => [lowHz / 1e6, highHz / 1e6] as const,
  );
  const sorted = [...bands].sort(([a, b], [c, d]) => a - c || b - d);
  return [...new Set(sorted.map(([low, high]) => `${low}-${high} MHz`))];
}

export interface LegalQuestion {
  readonly region: Region;
  readonly conditions: readonly string[];
  readonly channel: { readonly lowHz: number; readonly highHz: number };
  readonly emission: Emission;
  readonly powerDbm: number;
}

const OBSTACLES: Readonly<Record<RadioRule['obstacles'][number], string>> = {
  portable: 'a portable device',
  'integrated-antenna': 'an antenna that is part of the device',
  geofence: 'a geofenced device',
  'beam-switching': 'an antenna that switches its beams',
  national: 'national conditions that this table does not hold',
  pending: 'a decision that was pending',
};

const CONDITIONS: Readonly<Record<RadioRule['conditions'][number], string>> = {
  'point-to-point': 'a fixed point-to-point link and nothing else',
  licence: 'a licence or registration',
  coordination: 'automated frequency coordination',
  client: 'a client of an access point',
  indoor: 'use indoors',
};

/** Every rule that holds the channel, and the one that allows most. */
export function legalityOf(question: LegalQuestion): EndLegality {
  const { region, conditions, channel, emission, powerDbm } = question;
  const rules = rulesFor(region, channel).map((rule): RuleAnswer => {
    const legal = legalPower(rule, emission);
    const { id, service, source, edition, certainty, notes } = rule;
    const needs = [
      ...rule.obstacles.map((obstacle) => OBSTACLES[obstacle]),
      ...rule.conditions.filter((each) => !conditions.includes(each)).map((each) => CONDITIONS[each]),
    ];
    const marginDb = legal && legal.conductedDbm - powerDbm;
    return { id, service, source, edition, certainty, notes, needs, legal, marginDb };
  });
  const best = rules
    .filter(({ needs, legal }) => needs.length === 0 && legal !== undefined)
    // Of equals the later: at 5.8 GHz that is the one which Wi-Fi is certified under.
    .reduce<RuleAnswer | undefined>((most, each) => (power(each) >= power(most) ? each : most), undefined);
  return {
    powerDbm,
    eirpDbm: powerDbm - emission.cableDb + emission.gainDbi,
    best,
    // A sum such as 30.000000001 - 9 must not lose a whole decibel by its rounding.
    settingDbm: best?.legal && Math.floor(best.legal.conductedDbm + 1e-6),
    rules,
  };
}

const power = (answer: RuleAnswer | undefined): number => answer?.legal?.conductedDbm ?? Number.NEGATIVE_INFINITY;
