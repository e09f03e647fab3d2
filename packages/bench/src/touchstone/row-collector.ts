import type { LineReport } from './line-report.ts';
import { numberOf, shiftPoint } from './number-text.ts';

/** The numbers of one frequency. */
export interface Row {
  readonly freqHz: number;
  readonly numbers: readonly number[];
  readonly line: number;
}

export interface RowShape {
  /** Numbers that follow the frequency. */
  readonly count: number;
  readonly unitPlaces: number;
  /** Whether a line with an odd number of numbers always begins a frequency: pairs are not torn apart (version 1). */
  readonly oddLineBegins: boolean;
  /** What to say when a count is wrong. */
  readonly remedy: string;
}

export interface RowCollector {
  /** Takes the numbers of a line. */
  take(tokens: readonly string[], line: string): void;
  /** Tells of a row that is still open. */
  end(): void;
  /** Frequency of the last whole row. */
  readonly lastHz: number | undefined;
  /** Whether a row is begun and not yet whole. */
  readonly open: boolean;
  readonly rows: number;
}

const WORDS_FOR_NO_NUMBER = /^[+-]?(?:nan|inf|infinity|1\.#)/i;

/** Reads a token as a number; anything else is told with its column, and NaN stands for it. */
function readNumber(token: string, line: string, report: LineReport): number {
  const value = numberOf(token);
  if (value !== undefined) return value;
  const column = line.indexOf(token) + 1;
  if (WORDS_FOR_NO_NUMBER.test(token)) {
    report.error({
      code: 'not-a-value',
      value: token,
      allowed: 'is no measured value',
      remedy: 'sweep again, or take the frequency out of the file',
      column,
    });
  } else if (/^[+-]?\d+,\d+$/.test(token)) {
    report.error({
      code: 'decimal-comma',
      value: token,
      allowed: 'has a comma',
      remedy: 'write decimal points, and blanks between numbers',
      column,
    });
  } else
    report.error({
      code: 'not-a-number',
      value: token,
      allowed: 'is not a number',
      remedy: 'give a number like 0.25 or -1.5e-3',
      column,
    });
  return Number.NaN;
}

/** Gathers rows over as many lines as they take, and checks that frequencies rise. */
export function collectRows(shape: RowShape, report: LineReport, onRow: (row: Row) => void): RowCollector {
  const wanted = shape.count + 1;
  let gathered: number[] = [];
  let freqToken = '';
  let begunAt = 0;
  let lastHz: number | undefined;
  let rows = 0;

  const wrongCount = (found: number, line: number) =>
    report.error({
      code: 'wrong-count',
      value: `${found} numbers`,
      allowed: `stand for one frequency where ${wanted} belong`,
      remedy: shape.remedy,
      line,
    });

  const finish = () => {
    const freqHz = Number(shiftPoint(freqToken, shape.unitPlaces));
    const numbers = gathered.slice(1);
    gathered = [];
    if (!checkFrequency(freqHz, freqToken, begunAt)) return;
    lastHz = freqHz;
    rows++;
    onRow({ freqHz, numbers, line: begunAt });
  };

  function checkFrequency(freqHz: number, token: string, line: number): boolean {
    // A token that is no number has been told of.
    if (!Number.isFinite(freqHz)) return false;
    if (freqHz < 0) {
      report.error({
        code: 'negative-frequency',
        value: token,
        allowed: 'is below 0',
        remedy: 'give frequencies of 0 or above',
        line,
      });
      return false;
    }
    if (lastHz !== undefined && freqHz <= lastHz) {
      const allowed =
        freqHz === lastHz ? 'is the frequency of the row before' : 'is below the frequency of the row before';
      report.error({
        code: 'frequency-not-rising',
        value: token,
        allowed,
        remedy: 'keep one sweep a file, its frequencies rising',
        line,
      });
      return false;
    }
    return true;
  }

  return {
    get lastHz() {
      return lastHz;
    },
    get open() {
      return gathered.length > 0;
    },
    get rows() {
      return rows;
    },
    take(tokens, line) {
      if (gathered.length > 0 && shape.oddLineBegins && tokens.length % 2 === 1) {
        wrongCount(gathered.length, begunAt);
        gathered = [];
      }
      if (gathered.length === 0) {
        begunAt = report.line;
        freqToken = tokens[0] ?? '';
      }
      for (const token of tokens) gathered.push(readNumber(token, line, report));
      if (gathered.length === wanted) finish();
      else if (gathered.length > wanted) {
        wrongCount(gathered.length, begunAt);
        gathered = [];
      }
    },
    end() {
      if (gathered.length === 0) return;
      report.error({
        code: 'truncated',
        value: `${gathered.length} numbers`,
        allowed: `of the ${wanted} for one frequency are there, and the file or section ends`,
        remedy: 'save or copy the file again',
        line: begunAt,
      });
      gathered = [];
    },
  };
}
