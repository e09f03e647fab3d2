import type { LineReport } from './line-report.ts';
import { numberOf } from './number-text.ts';

/** Touchstone 1.1 and 2.0, "option line": what each word may be. Case does not count. */
export const UNITS = { Hz: 0, kHz: 3, MHz: 6, GHz: 9 } as const;
export const PARAMETERS = ['S', 'Y', 'Z', 'H', 'G'] as const;
export const FORMATS = ['DB', 'MA', 'RI'] as const;

export type FrequencyUnit = keyof typeof UNITS;
export type Parameter = (typeof PARAMETERS)[number];
/** Decibel and degrees, magnitude and degrees, real and imaginary part. */
export type NumberFormat = (typeof FORMATS)[number];

export interface OptionLine {
  readonly unit: FrequencyUnit;
  readonly parameter: Parameter;
  readonly format: NumberFormat;
  /** One for all ports, or one a port. */
  readonly referenceOhm: readonly number[];
}

/** What holds where the option line leaves a word out: `# GHz S MA R 50`. */
const DEFAULTS: OptionLine = { unit: 'GHz', parameter: 'S', format: 'MA', referenceOhm: [50] };

const UNIT_NAMES = Object.keys(UNITS) as FrequencyUnit[];
const sameWord =
  (token: string) =>
  (word: string): boolean =>
    word.toLowerCase() === token.toLowerCase();

const EXAMPLE = 'write it like "# MHz S RI R 50"';

/** Reads what follows the `#`. Each mistake goes to the report; the default then stands in for the word. */
export function readOptionLine(tokens: readonly string[], report: LineReport): OptionLine {
  const found: { -readonly [K in keyof OptionLine]?: OptionLine[K] } = {};
  const take = <K extends keyof OptionLine>(key: K, value: OptionLine[K], token: string): void => {
    if (found[key] === undefined) found[key] = value;
    else
      report.error({
        code: 'option-twice',
        value: token,
        allowed: 'stands beside another of its kind',
        remedy: 'keep one of the two in the option line',
      });
  };
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i] ?? '';
    const unit = UNIT_NAMES.find(sameWord(token));
    const parameter = PARAMETERS.find(sameWord(token));
    const format = FORMATS.find(sameWord(token));
    if (unit) take('unit', unit, token);
    else if (parameter) take('parameter', parameter, token);
    else if (format) take('format', format, token);
    else if (sameWord(token)('R')) {
      const ohms = numbersAfter(tokens, i + 1);
      i += ohms.length;
      take('referenceOhm', checkedReference(ohms, tokens[i + 1], report), token);
    } else
      report.error({
        code: 'unknown-option',
        value: token,
        allowed: `is not a word of the option line: a unit (${UNIT_NAMES.join(', ')}), a parameter (${PARAMETERS.join(', ')}), a format (${FORMATS.join(', ')}) or R with ohms`,
        remedy: EXAMPLE,
      });
  }
  return { ...DEFAULTS, ...found };
}

function numbersAfter(tokens: readonly string[], start: number): readonly number[] {
  const ohms: number[] = [];
  for (const token of tokens.slice(start)) {
    const value = numberOf(token);
    if (value === undefined) break;
    ohms.push(value);
  }
  return ohms;
}

/** Reference impedances as given, or the default when they are no ohms above 0. */
function checkedReference(ohms: readonly number[], next: string | undefined, report: LineReport): readonly number[] {
  const wrong = ohms.find((ohm) => !(ohm > 0));
  if (ohms.length > 0 && wrong === undefined) return ohms;
  const value = wrong === undefined ? `R ${next ?? ''}`.trim() : `R ${wrong}`;
  report.error({ code: 'bad-reference', value, allowed: 'gives no impedance above 0 ohm', remedy: EXAMPLE });
  return DEFAULTS.referenceOhm;
}
