import { type Complex, complex, polar } from '@sheetwave/rf';
import { type ComplexMatrix, matrixOf } from '../complex-matrix.ts';
import { type Header, MOST_PORTS } from './header.ts';
import type { LineReport } from './line-report.ts';
import { type NumberFormat, type OptionLine, UNITS } from './options.ts';
import { pairPlaces } from './order.ts';
import { normalised, renormalised, scatteringOf } from './parameters.ts';
import { collectRows, type Row, type RowCollector } from './row-collector.ts';

/** Most pairs of numbers that are kept: no analyzer sweeps so many, and they fit into memory. */
export const MOST_PAIRS = 500_000;

/** 500000 as 500,000. */
const grouped = (count: number): string => String(count).replace(/\B(?=(?:\d{3})+$)/g, ',');

export interface NetworkReader {
  /** Takes the numbers of a line. */
  take(tokens: readonly string[], line: string): void;
  /** Whether this line is the first of the noise data that end a version 1 file. */
  noiseBegins(tokens: readonly string[]): boolean;
  end(): void;
  readonly freqHz: readonly number[];
  readonly s: readonly ComplexMatrix[];
  /** Frequencies read, also those left out of `freqHz`. */
  readonly rows: number;
  readonly ports: number | undefined;
  readonly referenceOhm: readonly number[];
}

interface Source {
  readonly header: Header;
  readonly options: OptionLine;
  readonly portsOfName: number | undefined;
  readonly mostPairs: number;
  readonly report: LineReport;
}

/** Complex number of a pair as the format says. */
function numberOfPair(format: NumberFormat, first: number, second: number): Complex {
  if (format === 'RI') return complex(first, second);
  const size = format === 'DB' ? 10 ** (first / 20) : first;
  return polar(size, (second * Math.PI) / 180);
}

/** Ports whose matrix has this many numbers after the frequency; undefined for no whole matrix. */
function portsOfCount(numbers: number): number | undefined {
  const ports = Math.sqrt(numbers / 2);
  return Number.isInteger(ports) && ports >= 1 ? ports : undefined;
}

/**
 * Reads the network data. In version 1 the number of ports shows in the first frequency: its first line holds an odd number of numbers, the
 * lines that carry it on an even one. So its lines are held until the next one begins.
 */
export function createNetworkReader(source: Source): NetworkReader {
  const { header, report, mostPairs } = source;
  const freqHz: number[] = [];
  const s: ComplexMatrix[] = [];
  const held: { tokens: readonly string[]; line: string; at: number }[] = [];
  let collector: RowCollector | undefined;
  let ports: number | undefined;
  let referenceOhm: readonly number[] = [];

  function begin(found: number): void {
    ports = found;
    referenceOhm = referencesOf(found, source);
    if (report.stopped) return;
    const { place, count } = layoutOf(found, source);
    if (report.stopped) return;
    const shape = {
      count,
      unitPlaces: UNITS[source.options.unit],
      oddLineBegins: header.version === undefined,
      remedy: `a row of ${found} ${found === 1 ? 'port' : 'ports'} is a frequency and ${count / 2} ${count === 2 ? 'pair' : 'pairs'} of numbers; mend the row, or the number of ports`,
    };
    collector = collectRows(shape, report, (row) => keep(row, place));
  }

  function keep(row: Row, place: (pairs: readonly Complex[]) => ComplexMatrix): void {
    const { numbers } = row;
    if (!numbers.every(Number.isFinite)) return;
    if ((freqHz.length + 1) * numbers.length > 2 * mostPairs) {
      report.stop({
        code: 'too-large',
        value: `more than ${freqHz.length} frequencies`,
        allowed: `hold more than the ${grouped(mostPairs)} pairs of numbers that are read`,
        remedy: 'sweep with fewer points, or only the band',
        line: row.line,
      });
      return;
    }
    const pairs = Array.from({ length: numbers.length / 2 }, (_, i) =>
      numberOfPair(source.options.format, numbers[2 * i] ?? Number.NaN, numbers[2 * i + 1] ?? Number.NaN),
    );
    const matrix = scatteringAt(place(pairs), source, referenceOhm);
    if (matrix === undefined || !matrix.flat().every(({ re, im }) => Number.isFinite(re) && Number.isFinite(im))) {
      report.error({
        code: 'no-scattering',
        value: `${source.options.parameter} parameters`,
        allowed: 'have no scattering parameters here',
        remedy: 'save S parameters',
        line: row.line,
      });
    } else if (row.freqHz === 0) {
      report.note({
        code: 'direct-current',
        value: '0 Hz',
        allowed: 'is left out',
        remedy: 'nothing needs doing',
        line: row.line,
      });
    } else {
      freqHz.push(row.freqHz);
      s.push(matrix);
    }
  }

  function release(): void {
    const lines = held.splice(0);
    const last = report.line;
    for (const { tokens, line, at } of lines) {
      report.line = at;
      collector?.take(tokens, line);
    }
    report.line = last;
  }

  /** Settles the number of ports by the held lines of the first frequency. */
  function settle(atEnd: boolean): void {
    const numbers = held.reduce((sum, { tokens }) => sum + tokens.length, 0) - 1;
    // Lines that make no matrix together may be one whole row and a broken one: the first line alone then tells.
    const found = portsOfCount(numbers) ?? portsOfCount((held[0]?.tokens.length ?? 0) - 1);
    const named = source.portsOfName;
    const line = held[0]?.at ?? report.line;
    if (found !== undefined && (named === undefined || named === found)) {
      begin(found);
      release();
    } else if (atEnd && named !== undefined && numbers < 2 * named ** 2) {
      report.stop({
        code: 'truncated',
        value: `${numbers + 1} numbers`,
        allowed: `of the ${2 * named ** 2 + 1} for one frequency are there, and the file ends`,
        remedy: 'save or copy the file again',
        line,
      });
    } else if (found !== undefined) {
      report.stop({
        code: 'wrong-ports',
        value: `${numbers + 1} numbers`,
        allowed: `at the first frequency make ${found} ${found === 1 ? 'port' : 'ports'}, and the name of the file says ${named}`,
        remedy: `rename it to end in .s${found}p, or save it again`,
        line,
      });
    } else {
      report.stop({
        code: 'wrong-count',
        value: `${numbers + 1} numbers`,
        allowed: 'at the first frequency make no whole matrix: one port has 3, two have 9, three have 19',
        remedy: 'save or copy the file again',
        line,
      });
    }
  }

  if (header.version !== undefined) {
    const declared = header.ports;
    if (declared === undefined)
      report.stop({
        code: 'no-port-count',
        allowed: 'no [Number of Ports] before [Network Data]',
        remedy: 'put it in',
      });
    else {
      if (source.portsOfName !== undefined && source.portsOfName !== declared) {
        report.warning({
          code: 'wrong-ports',
          value: `[Number of Ports] ${declared}`,
          allowed: `is not the ${source.portsOfName} of the file's name`,
          remedy: 'the keyword counts; rename the file',
        });
      }
      begin(declared);
    }
  }

  return {
    freqHz,
    s,
    get rows() {
      return collector?.rows ?? 0;
    },
    get ports() {
      return ports;
    },
    get referenceOhm() {
      return referenceOhm;
    },
    take(tokens, line) {
      if (collector === undefined && held.length > 0 && tokens.length % 2 === 1) settle(false);
      if (report.stopped) return;
      if (collector !== undefined) collector.take(tokens, line);
      else {
        held.push({ tokens, line, at: report.line });
        const count = held.reduce((sum, part) => sum + part.tokens.length, 0);
        if (count > 2 * MOST_PORTS ** 2 + 1) settle(false);
      }
    },
    noiseBegins(tokens) {
      // The first frequency may still be held back.
      if (collector === undefined && held.length > 0 && tokens.length === 5) settle(false);
      if (ports !== 2 || tokens.length !== 5 || collector === undefined || collector.open) return false;
      return collector.lastHz !== undefined && frequencyOf(tokens, source.options) <= collector.lastHz;
    },
    end() {
      if (collector === undefined && held.length > 0 && !report.stopped) settle(true);
      collector?.end();
    },
  };
}

const frequencyOf = (tokens: readonly string[], { unit }: OptionLine): number => Number(tokens[0]) * 10 ** UNITS[unit];

/** One reference a port, from the option line or `[Reference]`. */
function referencesOf(ports: number, { header, options, report }: Source): readonly number[] {
  const given = header.referenceOhm ?? options.referenceOhm;
  if (given.length === ports) return given;
  const [single] = given;
  if (given.length === 1 && single !== undefined && header.referenceOhm === undefined)
    return Array.from({ length: ports }, () => single);
  report.stop({
    code: 'bad-reference',
    value: `${given.length} reference impedances`,
    allowed: `stand for ${ports} ${ports === 1 ? 'port' : 'ports'}`,
    remedy: header.referenceOhm === undefined ? 'give one after R' : 'give one for each port after [Reference]',
  });
  return [];
}

interface PlacedPairs {
  /** Numbers after the frequency. */
  readonly count: number;
  readonly place: (pairs: readonly Complex[]) => ComplexMatrix;
}

function layoutOf(ports: number, { header, options, report }: Source): PlacedPairs {
  const { matrixFormat = 'Full', twoPortOrder, version } = header;
  if ((options.parameter === 'H' || options.parameter === 'G') && ports !== 2) {
    report.stop({
      code: 'wrong-ports',
      value: `${options.parameter} parameters`,
      allowed: `exist for two ports only, and these are ${ports}`,
      remedy: 'save S parameters',
    });
  }
  if (version !== undefined && ports === 2 && twoPortOrder === undefined) {
    report.stop({
      code: 'no-port-order',
      allowed: 'no [Two-Port Data Order] before [Network Data]',
      remedy: 'put in "[Two-Port Data Order] 21_12" or 12_21: nothing else says which transmission comes first',
    });
  }
  if (version === undefined && new Set(options.referenceOhm).size > 1 && options.parameter !== 'S') {
    report.stop({
      code: 'bad-reference',
      value: `R ${options.referenceOhm.join(' ')}`,
      allowed: `does not say what ${options.parameter} parameters are normalised to`,
      remedy: 'save S parameters',
    });
  }
  const places = pairPlaces({ ports, matrixFormat, twoPortOrder: twoPortOrder ?? '21_12' });
  const index = new Map(places.map(([to, from], i) => [to * ports + from, i]));
  const place = (pairs: readonly Complex[]) =>
    matrixOf(ports, (to, from) => {
      const own = index.get(to * ports + from) ?? index.get(from * ports + to);
      return pairs[own ?? -1] ?? complex(Number.NaN);
    });
  return { count: 2 * places.length, place };
}

/** Scattering parameters against the first reference. */
function scatteringAt(
  m: ComplexMatrix,
  { header, options }: Source,
  ohms: readonly number[],
): ComplexMatrix | undefined {
  const { parameter } = options;
  // Version 1 gives them normalised already.
  const relative = header.version === undefined ? m : normalised(parameter, m, ohms, 1);
  const own = scatteringOf(parameter, relative);
  return own === undefined ? undefined : renormalised(own, ohms, ohms[0] ?? Number.NaN);
}
