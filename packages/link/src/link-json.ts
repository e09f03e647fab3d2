import { RULES_SEEN } from '@sheetwave/rf';
import { linkCautions } from './link-cautions.ts';
import type { Link } from './plan-link.ts';

/** Every number of a link as one plain object, with what its limits were put together from and the cautions. */
export function linkJson(link: Link): Readonly<Record<string, unknown>> {
  return { ...link, rulesFrom: RULES_SEEN, cautions: linkCautions() };
}
