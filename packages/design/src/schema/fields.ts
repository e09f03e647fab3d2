import { z } from 'zod';
import {
  describeKind,
  formatQuantity,
  type Problem,
  parseQuantity,
  problemOfOtherType,
  type QuantityKind,
  quantityPattern,
  type Range,
} from '../quantity.ts';

/**
 * Every message of this schema is "<allowed>; <remedy>", the two clauses of a finding;
 * `findings-of-issues.ts` splits it again.
 */
export function say(problem: Pick<Problem, 'allowed' | 'remedy'>): string {
  return `${problem.allowed}; ${problem.remedy}`;
}

const EXAMPLES: Readonly<Record<QuantityKind, readonly string[]>> = {
  length: ['6 mm', '0.25 in'],
  frequency: ['5.5 GHz'],
  impedance: ['50 ohm'],
  gain: ['14 dBi'],
  angle: ['90 deg'],
  distance: ['640 m', '2.1 km'],
  speed: ['40 m/s'],
  rain: ['60 mm/h'],
  loss: ['1.2 dB'],
  power: ['20 dBm', '100 mW'],
  rate: ['65 Mbit/s'],
};

/** Text with a unit, read into base units and held to a range. The description ends with that range. */
export function quantityField(kind: QuantityKind, range: Range, description: string) {
  const { noun, units } = describeKind(kind);
  const limits = `${formatQuantity(range.min, kind)} to ${formatQuantity(range.max, kind)}`;
  return z
    .string({ error: (issue) => say(problemOfOtherType(kind, issue.input)) })
    .meta({
      description: `${description} ${noun[0]?.toUpperCase()}${noun.slice(1)} as text with its unit (${units}), ${limits}.`,
      pattern: quantityPattern(kind),
      examples: EXAMPLES[kind],
    })
    .transform((text, context) => {
      const result = parseQuantity(text, kind, range);
      if (result.ok) return result.value;
      context.addIssue({ code: 'custom', message: say(result.problem), params: { code: result.problem.code } });
      return z.NEVER;
    });
}

/** A length in mm. */
export function lengthField(minMm: number, maxMm: number, description: string) {
  return quantityField('length', { min: minMm, max: maxMm }, description);
}

/** A plain number in a closed range. */
export function numberField(min: number, max: number, description: string) {
  const message = {
    error: say({ allowed: `a number from ${min} to ${max}`, remedy: 'write it without quotes or unit' }),
  };
  return z
    .number(message)
    .min(min, message)
    .max(max, message)
    .meta({ description: `${description} From ${min} to ${max}.` });
}

/** A whole number in a closed range. */
export function countField(min: number, max: number, description: string) {
  const message = {
    error: say({ allowed: `a whole number from ${min} to ${max}`, remedy: 'write it without quotes or unit' }),
  };
  return z
    .int(message)
    .min(min, message)
    .max(max, message)
    .meta({ description: `${description} A whole number from ${min} to ${max}.` });
}

/** One of a few words. */
export function choiceField<const T extends readonly string[]>(words: T, description: string) {
  return z.enum(words).meta({ description });
}

/** A yes or no. */
export function yesNoField(description: string) {
  return z
    .boolean({ error: say({ allowed: 'true or false', remedy: 'write it without quotes' }) })
    .meta({ description });
}

/** An id of stock; whether it exists is checked when it is looked up. */
export function stockIdField(description: string) {
  const message = {
    error: say({ allowed: 'the id of an item of stock', remedy: 'write it as text, such as "brass-0.5"' }),
  };
  return z.string(message).min(1, message).max(60, message).meta({ description });
}

/** Free text without control characters other than tab and line ends. */
export function textField(longest: number, description: string) {
  return z
    .string({ error: say({ allowed: 'text', remedy: 'write it between quotes' }) })
    .max(longest, { error: say({ allowed: `longer than ${longest} characters`, remedy: 'shorten it' }) })
    .regex(/^[^\p{Cc}]*$/u, { error: say({ allowed: 'contains a control character', remedy: 'remove it' }) })
    .meta({ description });
}
