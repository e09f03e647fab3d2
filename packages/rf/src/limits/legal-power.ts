import { requireFinite, requireNotNegative, requirePositive } from '../require.ts';
import { OTHER_RULES } from './other-rules.ts';
import type { RadioRule, Region } from './radio-rule.ts';
import { US_RULES } from './us-rules.ts';

/** All rules, region by region. */
export const RADIO_RULES: readonly RadioRule[] = [...US_RULES, ...OTHER_RULES];

/** The rules of a region that hold a whole channel, in the order of the table. */
export function rulesFor(region: Region, channel: { readonly lowHz: number; readonly highHz: number }): RadioRule[] {
  return RADIO_RULES.filter(
    (rule) => rule.region === region && rule.lowHz <= channel.lowHz && rule.highHz >= channel.highHz,
  );
}

/** One end of a link as a rule sees it. */
export interface Emission {
  readonly gainDbi: number;
  /** Of the cable between the radio and the antenna, 0 or above. */
  readonly cableDb: number;
  /** Of the channel; the power is taken to be spread evenly over it. */
  readonly widthHz: number;
  /** Whether the radio lowers its power by itself when it can. */
  readonly controlsPower: boolean;
}

/** The highest setting of the radio's total conducted power that a rule allows. */
export interface LegalPower {
  readonly conductedDbm: number;
  readonly eirpDbm: number;
  readonly bindingCap: 'power' | 'density';
}

/** What a gain takes off a conducted cap, dB. */
function backOffDb({ gain }: RadioRule, gainDbi: number): number {
  if (gain.kind !== 'above') return 0;
  const over = Math.max(0, gainDbi - gain.freeDbi);
  // A sum such as 6.3 + 8.7 must not begin another step by its rounding.
  return gain.everyDb > 1 ? Math.ceil(over / gain.everyDb - 1e-9) : over;
}

/**
 * What a rule allows, or undefined where it holds no number. Caps on conducted power lose what the gain takes off them; caps on EIRP
 * become P = EIRP - G + cable; a density allows its value times the bandwidth over its own; the lowest of them binds. A conducted cap
 * counts the gain of the antenna without its cable.
 */
export function legalPower(rule: RadioRule, emission: Emission): LegalPower | undefined {
  const { gainDbi, cableDb, widthHz, controlsPower } = emission;
  requireFinite({ gainDbi });
  requireNotNegative({ cableDb });
  requirePositive({ widthHz });
  if (rule.gain.kind === 'not-known') return undefined;
  const net = gainDbi - cableDb;
  const off = backOffDb(rule, gainDbi);
  const less = controlsPower ? 0 : (rule.withoutControlDb ?? 0);
  const conducted = (of: 'conducted' | 'eirp', dbm: number) => dbm - less - (of === 'eirp' ? net : off);
  const caps: { readonly dbm: number; readonly cap: LegalPower['bindingCap'] }[] = [];
  if (rule.power) {
    const { of, dbm, perMegahertzDbm } = rule.power;
    const byWidth = perMegahertzDbm === undefined ? dbm : perMegahertzDbm + 10 * Math.log10(widthHz / 1e6);
    caps.push({ dbm: conducted(of, Math.min(dbm, byWidth)), cap: 'power' });
  }
  if (rule.density) {
    const { of, dbm, perHz } = rule.density;
    caps.push({ dbm: conducted(of, dbm + 10 * Math.log10(widthHz / perHz)), cap: 'density' });
  }
  const lowest = caps.reduce<(typeof caps)[number] | undefined>(
    (least, each) => (least === undefined || each.dbm < least.dbm ? each : least),
    undefined,
  );
  return lowest && { conductedDbm: lowest.dbm, eirpDbm: lowest.dbm + net, bindingCap: lowest.cap };
}
