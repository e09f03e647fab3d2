/** Places whose rules are known. */
export const REGIONS = ['us', 'eu', 'uk', 'israel', 'taiwan', 'canada', 'australia', 'japan'] as const;
export type Region = (typeof REGIONS)[number];

/** What must be true of a link before a rule is for it; a rule names all that it asks. */
export const RULE_CONDITIONS = ['point-to-point', 'licence', 'coordination', 'client', 'indoor'] as const;
export type RuleCondition = (typeof RULE_CONDITIONS)[number];

/** What no home-made panel outdoors can be; a rule with one of these is told, and never used. */
export type RuleObstacle = 'portable' | 'integrated-antenna' | 'geofence' | 'beam-switching' | 'national' | 'pending';

export interface PowerCap {
  /** Where it is measured: at the antenna connector, or as radiated. */
  readonly of: 'conducted' | 'eirp';
  readonly dbm: number;
  /** With it the cap is the lower of `dbm` and this plus 10 log10 of the bandwidth in MHz. */
  readonly perMegahertzDbm?: number;
}

export interface DensityCap {
  readonly of: 'conducted' | 'eirp';
  readonly dbm: number;
  /** Bandwidth that `dbm` is for. */
  readonly perHz: number;
}

/** What a gain takes off the conducted power. */
export type GainRule =
  /** The cap is on what is radiated: the gain counts in full. */
  | { readonly kind: 'radiated' }
  /** Nothing to `freeDbi`; from there one dB for every `everyDb` dB of gain, begun ones counted whole when that is above 1. */
  | { readonly kind: 'above'; readonly freeDbi: number; readonly everyDb: number }
  /** Any gain. */
  | { readonly kind: 'none' }
  /** The table does not hold it: no power is derived. */
  | { readonly kind: 'not-known' };

/** One row of the rules. */
export interface RadioRule {
  readonly id: string;
  readonly region: Region;
  readonly lowHz: number;
  readonly highHz: number;
  readonly service: string;
  /** Undefined where the table gives no number. */
  readonly power?: PowerCap;
  readonly density?: DensityCap;
  readonly gain: GainRule;
  /** What the caps fall by when the radio does not control its power. */
  readonly withoutControlDb?: number;
  readonly conditions: readonly RuleCondition[];
  readonly obstacles: readonly RuleObstacle[];
  /** Radar detection and power control, and what else goes with the rule. Sentences. */
  readonly notes: readonly string[];
  readonly source: string;
  /** Edition or date of the text. */
  readonly edition: string;
  readonly certainty: 'confirmed' | 'memory' | 'memory, to be verified';
}

/** What these tables were put together from, and when. */
export const RULES_SEEN = 'texts seen up to November 2026';

/** What stands beside every answer. */
export const RULES_CAUTION = `Radio limits are set by your national regulator and change. This is a planning aid from ${RULES_SEEN}, not legal advice: check with your regulator before transmitting. Replacing the antenna of a certified device may void its authorisation.`;
