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

function endWords({ name }: LinkEnd, { powerDbm, eirpDbm, best, settingDbm }: EndLegality): string {
  const sent = `${name} radiates ${tidy(eirpDbm, 1)} dBm EIRP from a setting of ${tidy(powerDbm, 1)} dBm`;
  if (best?.legal === undefined) return `${sent}; no rule of the table lets this link be used as it is described`;
  const { conductedDbm, eirpDbm: most, bindingCap } = best.legal;
  const margin = conductedDbm - powerDbm;
  const verdict = margin < -1e-6 ? `${tidy(-margin, 1)} dB too much` : `${tidy(margin, 1)} dB below the limit`;
  const by = bindingCap === 'density' ? 'power density' : 'power';
  return `${sent}: ${verdict}. Highest setting ${tidy(settingDbm ?? conductedDbm, 0)} dBm (${tidy(most, 1)} dBm EIRP, by ${by}) under ${ruleWords(best)}`;
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
