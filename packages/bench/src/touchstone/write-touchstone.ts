import { angle, type Complex, magnitude, type Response } from '@sheetwave/rf';
import { numberText } from './number-text.ts';
import { type FrequencyUnit, type NumberFormat, type Parameter, UNITS } from './options.ts';
import { pairPlaces, type TwoPortOrder } from './order.ts';
import { normalised, parametersOf } from './parameters.ts';
import type { NoisePoint } from './touchstone-file.ts';

export interface TouchstoneWriting {
  /** Default 1.1, which every program reads. */
  readonly version?: '1.1' | '2.0';
  readonly unit?: FrequencyUnit;
  readonly parameter?: Parameter;
  readonly format?: NumberFormat;
  /** Order of a two-port in version 2.0; version 1.1 knows only 21_12. */
  readonly twoPortOrder?: TwoPortOrder;
  /** Put in front, one a line. */
  readonly comments?: readonly string[];
  /** Of a two-port. */
  readonly noise?: readonly NoisePoint[];
}

/** What stands for a magnitude of 0, whose decibels have no number. */
const NOTHING_DB = -1000;
/** Version 1.1 allows four pairs a line. */
const PAIRS_A_LINE = 4;

/**
 * A response as a Touchstone file. Numbers are the shortest that read back the same; real and imaginary parts (RI, the default) are exact.
 * Throws RangeError for parameters that the response does not have (impedances of an open end, H and G without two ports).
 */
export function writeTouchstone(response: Response, writing: TouchstoneWriting = {}): string {
  const { version = '1.1', unit = 'Hz', parameter = 'S', format = 'RI', comments = [], noise = [] } = writing;
  const ports = response.s[0]?.length ?? 0;
  if (ports === 0) throw new RangeError('a response without frequencies cannot be written.');
  if ((parameter === 'H' || parameter === 'G' || noise.length > 0) && ports !== 2) {
    throw new RangeError(`${noise.length > 0 ? 'noise data' : parameter} need two ports, not ${ports}.`);
  }
  const twoPortOrder = version === '1.1' ? '21_12' : (writing.twoPortOrder ?? '21_12');
  const places = pairPlaces({ ports, twoPortOrder, matrixFormat: 'Full' });
  const option = `# ${unit} ${parameter} ${format} R ${numberText(response.referenceOhm)}`;
  const head = comments.flatMap((text) => text.split(/\r\n|\r|\n/)).map((text) => `! ${asciiOnly(text)}`.trimEnd());
  const rows = response.s.flatMap((matrix, i) => {
    const freqHz = response.freqHz[i] ?? Number.NaN;
    const values = valuesOf(matrix, response, { parameter, version, freqHz });
    const pairs = places.map(([to, from]) => pairText(values[to]?.[from], format));
    return rowLines(numberText(freqHz, -UNITS[unit]), pairs, ports);
  });
  const noiseRows = noise.map((point) => noiseText(point, unit, version === '1.1' ? response.referenceOhm : 1));
  if (version === '1.1') return lines([...head, option, ...rows, ...noiseRows]);
  return lines([
    ...head,
    '[Version] 2.0',
    option,
    `[Number of Ports] ${ports}`,
    ...(ports === 2 ? [`[Two-Port Data Order] ${twoPortOrder}`] : []),
    `[Number of Frequencies] ${response.freqHz.length}`,
    ...(noise.length > 0 ? [`[Number of Noise Frequencies] ${noise.length}`] : []),
    `[Reference] ${Array.from({ length: ports }, () => numberText(response.referenceOhm)).join(' ')}`,
    '[Network Data]',
    ...rows,
    ...(noise.length > 0 ? ['[Noise Data]', ...noiseRows] : []),
    '[End]',
  ]);
}

const lines = (all: readonly string[]): string => `${all.join('\n')}\n`;

/** The standard allows ASCII only, in comments too. */
const asciiOnly = (text: string): string => text.replace(/[^\t -~]/gu, '?');

interface Kind {
  readonly parameter: Parameter;
  readonly version: '1.1' | '2.0';
  readonly freqHz: number;
}

function valuesOf(matrix: Response['s'][number], { referenceOhm }: Response, { parameter, version, freqHz }: Kind) {
  const relative = parametersOf(parameter, matrix);
  if (relative === undefined) throw new RangeError(`there are no ${parameter} parameters at ${freqHz} Hz.`);
  const ohms = matrix.map(() => referenceOhm);
  return version === '1.1' ? relative : normalised(parameter, relative, ohms, -1);
}

function pairText(value: Complex | undefined, format: NumberFormat): string {
  const { re, im } = value ?? { re: Number.NaN, im: Number.NaN };
  if (format === 'RI') return `${numberText(re)} ${numberText(im)}`;
  const size = magnitude({ re, im });
  const degrees = numberText((angle({ re, im }) * 180) / Math.PI);
  if (format === 'MA') return `${numberText(size)} ${degrees}`;
  return `${numberText(size === 0 ? NOTHING_DB : 20 * Math.log10(size))} ${degrees}`;
}

/** One and two ports in one line; more ports row by row, each beginning a line, four pairs a line at most. */
function rowLines(freq: string, pairs: readonly string[], ports: number): readonly string[] {
  if (ports <= 2) return [[freq, ...pairs].join(' ')];
  const out: string[] = [];
  for (let row = 0; row < ports; row++) {
    for (let column = 0; column < ports; column += PAIRS_A_LINE) {
      const end = row * ports + Math.min(column + PAIRS_A_LINE, ports);
      const part = pairs.slice(row * ports + column, end).join(' ');
      out.push(out.length === 0 ? `${freq} ${part}` : `  ${part}`);
    }
  }
  return out;
}

function noiseText(point: NoisePoint, unit: FrequencyUnit, perOhm: number): string {
  const { re, im } = point.optimumReflection;
  return [
    numberText(point.freqHz, -UNITS[unit]),
    numberText(point.minimumFigureDb),
    pairText({ re, im }, 'MA'),
    numberText(point.resistanceOhm / perOhm),
  ].join(' ');
}
