import { z } from 'zod';
import { formatQuantity, parseQuantity, type Range } from '../quantity.ts';
import { quantityField, say } from '../schema/fields.ts';

/** Conducted power of small radios: 10 µW to 4 W. */
const RADIO_DBM: Range = { min: -20, max: 36 };

const BOTH = 'write "20 dBm" (which is 100 mW) or "20 mW" (which is 13 dBm), whichever the radio shows';

/** The same number in the other unit, when that is a power a radio has. */
function meantInstead(text: string): string | undefined {
  const digits = /[\d.]+/.exec(text)?.[0];
  if (digits === undefined) return undefined;
  const other = /dBm/.test(text) ? 'mW' : 'dBm';
  const meant = `${digits} ${other}`;
  return parseQuantity(meant, 'power', RADIO_DBM).ok ? meant : undefined;
}

function checkRange(dbm: number, text: string, context: z.RefinementCtx): void {
  if (dbm >= RADIO_DBM.min && dbm <= RADIO_DBM.max) return;
  const [least, most] = [RADIO_DBM.min, RADIO_DBM.max].map((value) => formatQuantity(value, 'power'));
  const same = /dBm/.test(text) ? '' : `comes to ${dbm.toFixed(1)} dBm, which `;
  const meant = meantInstead(text);
  const remedy = meant === undefined ? 'give the conducted power of the radio' : `did you mean "${meant}"?`;
  const allowed = `${same}is outside what such radios send, ${least} to ${most} (4 W)`;
  context.addIssue({ code: 'custom', message: say({ allowed, remedy }), params: { code: 'out-of-range' } });
}

/**
 * Power of a radio, dBm. A bare number is asked for its unit with both meanings side by side, and a power that no such radio has is taken
 * for the wrong unit.
 */
export function radioPowerField(description: string) {
  const missing = { error: say({ allowed: 'a power with its unit', remedy: BOTH }) };
  const shown = quantityField('power', RADIO_DBM, description).meta() ?? {};
  return z
    .string(missing)
    .meta(shown)
    .transform((text, context) => {
      const read = parseQuantity(text, 'power');
      if (read.ok) {
        checkRange(read.value, text, context);
        return read.value;
      }
      const { code, allowed, remedy } = read.problem;
      const message = say({ allowed, remedy: code === 'missing-unit' ? BOTH : remedy });
      context.addIssue({ code: 'custom', message, params: { code } });
      return z.NEVER;
    });
}
