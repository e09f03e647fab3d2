import { z } from 'zod';
import { PRICE_PATTERN, parsePrice } from '../price.ts';
import { say } from './fields.ts';

const WRITE = 'write it such as "18.50 EUR per sheet"';
const EXAMPLES = ['18.50 EUR per sheet', '6 EUR per metre', '4.20 EUR per 100 pieces'];

/** A bare id with a full stop is two keys in TOML, and its value then a table. */
function problemOfOtherType(value: unknown): string {
  return typeof value === 'object'
    ? say({
        allowed: 'a price as text',
        remedy: `put an id with a full stop between quotes: "brass-0.5" = "18.50 EUR per sheet"`,
      })
    : say({ allowed: 'a price with its currency and what it is for', remedy: WRITE });
}

const price = z
  .string({ error: (issue) => problemOfOtherType(issue.input) })
  .meta({
    description:
      'A price as text: amount, currency (three capitals, ISO 4217), per, and what it buys: piece or 100 pieces (whole packs are counted), metre, length, sheet, board, m2 or kg.',
    pattern: PRICE_PATTERN,
    examples: EXAMPLES,
  })
  .transform((text, context) => {
    const result = parsePrice(text);
    if (result.ok) return result.price;
    const { code, ...words } = result.problem;
    context.addIssue({ code: 'custom', message: say(words), params: { code } });
    return z.NEVER;
  });

/** `[prices]` */
export const pricesSection = z.record(z.string(), price).meta({
  description: 'What stock costs you, by its id, all in one currency. What has no price is named beside the total.',
});
