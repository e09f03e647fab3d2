import { RULES_SEEN } from '@sheetwave/rf';
import type { EndLegality, RuleAnswer } from './legal.ts';
import { bullet, tidy } from './number-words.ts';
import type { Link, LinkEnd } from './plan-link.ts';

/** What the rules of the region say of both ends; each rule once, with its source. */
export function legalLines({ near, far, region }: Link): string[] {
  const { legality } = near;
  if (region === undefined || legality === undefined || far.legality === undefined) {
    return [bullet('no region is given, so nothing is said about what is legal')];
  }
  const head = `region ${region}, from ${RULES_SEEN}; check with your regulator`;
  return [head, endWords(near, legality), endWords(far, far.legality), ...notesOf(legality), ...others(legality)].map(
    bullet,
  );
}

function endWords({ name, gainErrorDb }: LinkEnd, { powerDbm, eirpDbm, best, settingDbm }: EndLegality): string {
  const most = gainErrorDb > 0 ? ' at most, should its gain be as high as it can' : '';
  const sent = `${name} radiates ${tidy(eirpDbm, 1)} dBm EIRP${most}, from a setting of ${tidy(powerDbm, 1)} dBm`;
  if (best?.legal === undefined) return `${sent}; no rule of the table lets this link be used as it is described`;
  const { conductedDbm, eirpDbm: allowed, bindingCap } = best.legal;
  const by = bindingCap === 'density' ? 'power density' : 'power';
  const setting = `Highest setting ${tidy(settingDbm ?? conductedDbm, 0)} dBm (${tidy(allowed, 1)} dBm EIRP, by ${by})`;
  return `${sent}: ${verdict(conductedDbm - powerDbm, gainErrorDb)}. ${setting} under ${ruleWords(best)}`;
}

/** `margin` is what is left with the highest gain that the antenna may have. */
function verdict(margin: number, gainErrorDb: number): string {
  if (margin >= -1e-6) return `${tidy(margin, 1)} dB below the limit`;
  return margin + gainErrorDb >= -1e-6
    ? `up to ${tidy(-margin, 1)} dB too much, as far as is known of the gain`
    : `${tidy(-margin, 1)} dB too much`;
}

const ruleWords = ({ id, service, source, edition, certainty }: RuleAnswer): string =>
  `${id}, ${service}: ${source} [${edition}; ${certainty}]`;

function notesOf({ best }: EndLegality): string[] {
  return best === undefined ? [] : [...best.notes];
}

/** Rules of the band that are not the one that was taken, as far as the near end goes. */
function others({ best, rules }: EndLegality): string[] {
  return rules
    .filter((rule) => rule !== best)
    .map((rule) => {
      const most = rule.legal === undefined ? 'no number in the table' : `to ${tidy(rule.legal.conductedDbm, 1)} dBm`;
      const why = rule.needs.length === 0 ? 'allows less' : `needs ${rule.needs.join(' and ')}`;
      return `also ${ruleWords(rule)}: ${most}; ${why}`;
    });
}
