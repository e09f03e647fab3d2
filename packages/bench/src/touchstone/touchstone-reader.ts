import type { Complex } from '@sheetwave/rf';
import { type Header, readKeyword, type Section, takeKeyword, takeReference } from './header.ts';
import { createLineReport, type LineReport } from './line-report.ts';
import { createNetworkReader, MOST_PAIRS, type NetworkReader } from './network-data.ts';
import { createNoiseReader, type NoiseReader } from './noise-data.ts';
import { type OptionLine, readOptionLine } from './options.ts';
import { splitLines } from './split-lines.ts';
import type { TouchstoneFile, TouchstoneOptions, TouchstoneReading } from './touchstone-file.ts';

/** Reads a file in pieces, so that its text is never held. */
export interface TouchstoneReader {
  /** Takes the next piece. Says false when more would tell nothing new: the rest need not be read. */
  push(piece: string | Uint8Array): boolean;
  end(): TouchstoneReading;
}

const MOST_COMMENTS = 100;
/** Control characters other than tab, line feed, form feed and carriage return. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const BINARY = /[\x00-\x08\x0b\x0e-\x19\x1b-\x1f]/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: the end of a text file on old systems
const OLD_END_OF_FILE = /\x1a$/;
const NOT_ASCII = /[^\t\n\f\r -~]/;

/** What is known so far. Data lines need the option line, and in version 2 the keywords before them. */
interface State {
  readonly report: LineReport;
  readonly header: Header;
  readonly comments: string[];
  readonly information: string[];
  readonly portsOfName: number | undefined;
  readonly mostPairs: number;
  section: Section;
  options?: OptionLine;
  network?: NetworkReader;
  noise?: NoiseReader;
  /** Where [End] stood. */
  ended: boolean;
  lines: number;
}

/** Ports by the ending of a file name: `antenna.s1p` has one. */
function portsOfName(name: string | undefined): number | undefined {
  const [, digits] = /\.s(\d{1,3})p$/i.exec(name ?? '') ?? [];
  const ports = digits === undefined ? 0 : Number(digits);
  return ports > 0 ? ports : undefined;
}

/** Begins to read a Touchstone 1.1 or 2.0 file. */
export function createTouchstoneReader(options: TouchstoneOptions = {}): TouchstoneReader {
  const report = createLineReport();
  const state: State = {
    report,
    header: {},
    comments: [],
    information: [],
    portsOfName: portsOfName(options.name),
    mostPairs: options.mostPairs ?? MOST_PAIRS,
    section: 'header',
    ended: false,
    lines: 0,
  };
  const decoder = new TextDecoder('utf-8');
  const splitter = splitLines(
    (line) => {
      state.lines++;
      report.line = state.lines;
      takeLine(line.replace(OLD_END_OF_FILE, ''), state);
      return !report.stopped;
    },
    () => {
      report.line = state.lines + 1;
      report.stop({
        code: 'line-too-long',
        allowed: 'has a line that does not end',
        remedy: 'check that this is a Touchstone file: text, one frequency a line',
      });
    },
  );
  return {
    push(piece) {
      if (report.stopped) return false;
      splitter.push(typeof piece === 'string' ? piece : decoder.decode(piece, { stream: true }));
      return !report.stopped;
    },
    end() {
      splitter.push(decoder.decode());
      splitter.end();
      return finish(state, options);
    },
  };
}

function takeLine(whole: string, state: State): void {
  const { report, section } = state;
  if (BINARY.test(whole)) {
    report.stop({
      code: 'not-text',
      allowed: 'bytes that no text has',
      remedy: 'check that this is a Touchstone file: plain text, not a picture, a document or a zip',
    });
    return;
  }
  const mark = whole.indexOf('!');
  if (mark >= 0 && state.comments.length < MOST_COMMENTS) state.comments.push(whole.slice(mark + 1).trim());
  const line = (mark < 0 ? whole : whole.slice(0, mark)).trim();
  if (line === '') return;
  if (section === 'information' && !/^\[\s*end\s+information\s*\]/i.test(line)) {
    if (state.information.length < MOST_COMMENTS) state.information.push(line);
    return;
  }
  if (NOT_ASCII.test(line)) {
    const value = line.match(NOT_ASCII)?.[0] ?? '';
    report.stop({
      code: 'not-ascii',
      value,
      allowed: 'is not an ASCII character',
      remedy: 'keep other characters in comments, after a !',
      column: whole.indexOf(value) + 1,
    });
    return;
  }
  if (line.startsWith('#')) takeOptionLine(line, state);
  else if (line.startsWith('[')) takeKeywordLine(line, state);
  else takeDataLine(line, whole, state);
}

function takeOptionLine(line: string, state: State): void {
  const { report } = state;
  if (state.options !== undefined) {
    report.note({
      code: 'second-option-line',
      value: line,
      allowed: 'stands after another option line',
      remedy: 'only the first one counts',
    });
    return;
  }
  state.options = readOptionLine(
    line
      .slice(1)
      .split(/\s+/)
      .filter((token) => token !== ''),
    report,
  );
}

function takeKeywordLine(line: string, state: State): void {
  const { report, header } = state;
  const read = readKeyword(line, report);
  if (read === undefined) return;
  if (read.keyword !== 'Version' && header.version === undefined) {
    report.stop({
      code: 'keyword-without-version',
      value: `[${read.keyword}]`,
      allowed: 'stands in a file without [Version]',
      remedy: 'begin the file with "[Version] 2.0", or take the keyword out',
    });
    return;
  }
  if (state.ended) return;
  state.section = takeKeyword(read, header, report);
  if (state.section === 'end') {
    state.ended = true;
    return;
  }
  if (state.section === 'network') beginNetwork(state);
  if (state.section === 'noise') beginNoise(state);
}

function takeDataLine(line: string, whole: string, state: State): void {
  const { report, header } = state;
  if (state.ended) return;
  if (state.section === 'reference') {
    takeReference(line, header, report);
    return;
  }
  const tokens = line.split(/[\s]+/);
  if (state.options === undefined) {
    report.stop({
      code: 'no-option-line',
      value: tokens.slice(0, 3).join(' '),
      allowed: 'comes before the option line',
      remedy: 'put a line like "# GHz S MA R 50" before the numbers: nothing else says what they mean',
    });
    return;
  }
  if (header.version !== undefined && state.section === 'header') {
    report.stop({
      code: 'data-in-header',
      value: tokens.slice(0, 3).join(' '),
      allowed: 'stands before [Network Data]',
      remedy: 'put [Network Data] before the first frequency',
    });
    return;
  }
  if (state.section === 'header') {
    state.section = 'network';
    beginNetwork(state);
  }
  if (header.version === undefined && state.section === 'network' && state.network?.noiseBegins(tokens) === true) {
    state.section = 'noise';
    beginNoise(state);
  }
  if (state.section === 'noise') state.noise?.take(tokens, whole);
  else state.network?.take(tokens, whole);
}

function beginNetwork(state: State): void {
  const { report, header, options, portsOfName: ports, mostPairs } = state;
  if (options === undefined) {
    report.stop({
      code: 'no-option-line',
      allowed: 'no option line before the numbers',
      remedy: 'put a line like "# GHz S MA R 50" before [Network Data]',
    });
    return;
  }
  if (state.network === undefined)
    state.network = createNetworkReader({ header, options, portsOfName: ports, mostPairs, report });
}

function beginNoise(state: State): void {
  const { report, options, header, network } = state;
  const ports = network?.ports;
  if (options === undefined || network === undefined || ports !== 2) {
    report.stop({
      code: 'noise-not-two-port',
      allowed: 'noise data in a file that has not two ports',
      remedy: 'take them out',
    });
    return;
  }
  const ohm = header.version === undefined ? (network.referenceOhm[0] ?? Number.NaN) : 1;
  state.noise = createNoiseReader(options.unit, ohm, report);
}

function finish(state: State, options: TouchstoneOptions): TouchstoneReading {
  const { report, network, noise } = state;
  report.line = state.lines;
  network?.end();
  noise?.end();
  if (!report.stopped) checkEnd(state);
  if (network === undefined || network.freqHz.length === 0) {
    const told = report.findings.some(({ severity }) => severity === 'error');
    if (!told) report.error({ code: 'no-data', allowed: 'no frequency in the file', remedy: 'save the sweep again' });
  }
  const { findings } = report;
  if (network === undefined || findings.some(({ severity }) => severity === 'error')) return { ok: false, findings };
  return { ok: true, file: fileOf(state, network, options), findings };
}

function checkEnd({ report, header, network, noise, ended }: State): void {
  if (header.version === undefined || network === undefined) return;
  const whole = header.frequencies === undefined ? undefined : header.frequencies === network.rows;
  if (whole === false) {
    report.error({
      code: 'wrong-frequency-count',
      value: `${network.rows} frequencies`,
      allowed: `where [Number of Frequencies] says ${header.frequencies}`,
      remedy: ended ? 'mend the number or the data' : 'save or copy the file again: it looks cut off',
    });
  }
  if (header.noiseFrequencies !== undefined && header.noiseFrequencies !== (noise?.rows ?? 0)) {
    report.error({
      code: 'wrong-frequency-count',
      value: `${noise?.rows ?? 0} noise frequencies`,
      allowed: `where [Number of Noise Frequencies] says ${header.noiseFrequencies}`,
      remedy: 'mend the number or the data',
    });
  }
  if (header.frequencies === undefined) {
    report.warning({
      code: 'no-frequency-count',
      allowed: 'no [Number of Frequencies]',
      remedy: 'make sure that the file is whole: it cannot be told from one that was cut off',
      line: 0,
    });
  }
  if (!ended) report.warning({ code: 'no-end', allowed: 'no [End]', remedy: 'make sure that the file is whole' });
}

function fileOf(state: State, network: NetworkReader, options: TouchstoneOptions): TouchstoneFile {
  const { header, comments, information, noise } = state;
  const { unit = 'GHz', parameter = 'S', format = 'MA' } = state.options ?? {};
  const { freqHz, s, referenceOhm, ports } = network;
  return {
    response: {
      origin: 'measurement',
      method: options.method ?? `Sweep ${options.name ?? 'in a Touchstone file'}.`,
      error: { origin: 'The file does not say how exact the instrument was.' },
      freqHz,
      referenceOhm: referenceOhm[0] ?? Number.NaN,
      s: s as readonly (readonly (readonly Complex[])[])[],
    },
    ports: ports ?? 0,
    version: header.version ?? '1.1',
    unit,
    parameter,
    format,
    referenceOhm,
    noise: noise?.points ?? [],
    comments,
    information,
  };
}
