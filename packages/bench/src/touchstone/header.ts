import { nearestWords } from '@sheetwave/design';
import type { LineReport } from './line-report.ts';
import { numberOf } from './number-text.ts';
import { MATRIX_FORMATS, type MatrixFormat, TWO_PORT_ORDERS, type TwoPortOrder } from './order.ts';

/** What the keywords of a version 2 file say. */
export interface Header {
  ports?: number;
  twoPortOrder?: TwoPortOrder;
  matrixFormat?: MatrixFormat;
  frequencies?: number;
  noiseFrequencies?: number;
  referenceOhm?: number[];
  version?: '2.0' | '2.1';
}

/** Where the lines that follow a keyword belong. */
export type Section = 'header' | 'reference' | 'information' | 'network' | 'noise' | 'end';

/** Most ports of a file that is read. */
export const MOST_PORTS = 100;

const KEYWORDS = [
  'Version',
  'Number of Ports',
  'Two-Port Data Order',
  'Number of Frequencies',
  'Number of Noise Frequencies',
  'Reference',
  'Matrix Format',
  'Mixed-Mode Order',
  'Begin Information',
  'End Information',
  'Network Data',
  'Noise Data',
  'End',
] as const;
type Keyword = (typeof KEYWORDS)[number];

export interface KeywordLine {
  readonly keyword: Keyword;
  readonly argument: string;
}

/** `[Number of Ports] 2` in its parts; undefined (and told) for a keyword that is none. Case does not count. */
export function readKeyword(line: string, report: LineReport): KeywordLine | undefined {
  const [, name, argument = ''] = /^\s*\[\s*([^\]]*?)\s*\](.*)$/.exec(line) ?? [];
  const plain = name?.replace(/\s+/g, ' ').toLowerCase();
  const keyword = KEYWORDS.find((known) => known.toLowerCase() === plain);
  if (keyword !== undefined) return { keyword, argument: argument.trim() };
  const [near] = name === undefined ? [] : nearestWords(name, KEYWORDS, 1);
  const remedy =
    near === undefined
      ? `the keywords are ${KEYWORDS.map((known) => `[${known}]`).join(', ')}`
      : `did you mean [${near}]?`;
  report.error({ code: 'unknown-keyword', value: line.trim(), allowed: 'is not a keyword of Touchstone 2', remedy });
  return undefined;
}

function count(
  argument: string,
  { most, what }: { most: number; what: string },
  report: LineReport,
): number | undefined {
  const value = numberOf(argument);
  if (value !== undefined && Number.isInteger(value) && value >= 1 && value <= most) return value;
  report.stop({
    code: 'bad-keyword',
    value: argument,
    allowed: `a whole number of ${what}, 1 to ${most}`,
    remedy: 'mend the keyword',
  });
  return undefined;
}

function oneOf<T extends string>(argument: string, words: readonly T[], report: LineReport): T | undefined {
  const found = words.find((word) => word.toLowerCase() === argument.toLowerCase());
  if (found === undefined) {
    report.stop({
      code: 'bad-keyword',
      value: argument,
      allowed: `one of ${words.join(', ')}`,
      remedy: 'mend the keyword',
    });
  }
  return found;
}

/** Takes a keyword into the header and says where the next lines belong. */
export function takeKeyword({ keyword, argument }: KeywordLine, header: Header, report: LineReport): Section {
  switch (keyword) {
    case 'Version':
      set(header, 'version', oneOf(argument, ['2.0', '2.1'] as const, report));
      return 'header';
    case 'Number of Ports':
      set(header, 'ports', count(argument, { most: MOST_PORTS, what: 'ports' }, report));
      return 'header';
    case 'Two-Port Data Order':
      set(header, 'twoPortOrder', oneOf(argument, TWO_PORT_ORDERS, report));
      return 'header';
    case 'Matrix Format':
      set(header, 'matrixFormat', oneOf(argument, MATRIX_FORMATS, report));
      return 'header';
    case 'Number of Frequencies':
      set(header, 'frequencies', count(argument, { most: 1e9, what: 'frequencies' }, report));
      return 'header';
    case 'Number of Noise Frequencies':
      set(header, 'noiseFrequencies', count(argument, { most: 1e9, what: 'frequencies' }, report));
      return 'header';
    case 'Reference':
      header.referenceOhm = [];
      takeReference(argument, header, report);
      return 'reference';
    case 'Mixed-Mode Order':
      report.stop({
        code: 'mixed-mode',
        value: `[${keyword}] ${argument}`,
        allowed: 'says that the file holds mixed-mode parameters',
        remedy: 'save single-ended parameters of one or two ports',
      });
      return 'header';
    case 'Begin Information':
      return 'information';
    case 'End Information':
      return 'header';
    case 'Network Data':
      return 'network';
    case 'Noise Data':
      return 'noise';
    case 'End':
      return 'end';
  }
}

function set<K extends keyof Header>(header: Header, key: K, value: Header[K] | undefined): void {
  if (value !== undefined) header[key] = value;
}

/** Impedances of `[Reference]`, which may go on over lines. */
export function takeReference(text: string, header: Header, report: LineReport): void {
  for (const token of text.split(/\s+/).filter((part) => part !== '')) {
    const ohm = numberOf(token);
    if (ohm !== undefined && ohm > 0) header.referenceOhm?.push(ohm);
    else
      report.stop({
        code: 'bad-reference',
        value: token,
        allowed: 'is no impedance above 0 ohm',
        remedy: 'give one for each port after [Reference], real and in ohms',
      });
  }
}
