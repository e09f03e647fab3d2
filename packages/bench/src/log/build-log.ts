import type { Finding } from '@sheetwave/design';
import { isLogEntry, type LogEntry } from './log-entry.ts';

/*
 * The build log is a text file to which lines are added and from which nothing is taken:
 *
 *   {"sha256":"<64 hexadecimal digits>","entry":{…}}
 *
 * The digest is that of the entry's own text. Invariants:
 *
 *  1. An entry is in the log once its line is whole; the line break belongs to the line before the next.
 *  2. Whatever instant the writing ended at, the lines before are untouched, and what is left of the new line is a torn tail: text without a line break
 *     that is no whole line.
 *  3. Adding cuts a torn tail off first. It never changes a whole line.
 *  4. A broken line with a line break was not broken by us: it is told, left where it is, and the others are read.
 */

/** SHA-256 of a text in UTF-8, in hexadecimal. */
export type Digest = (text: string) => string;

export interface BuildLog {
  readonly entries: readonly LogEntry[];
  /** Bytes up to the end of the last whole line; the rest is torn. */
  readonly wholeBytes: number;
  readonly tornBytes: number;
  /** True when the last whole line has lost its line break only. */
  readonly lacksLineBreak: boolean;
  readonly findings: readonly Finding[];
}

const LINE = /^\{"sha256":"([0-9a-f]{64})","entry":(\{.*\})\}$/;
const LINE_FEED = 0x0a;

/** The line of an entry, its line break included. */
export function logLine(entry: LogEntry, digest: Digest): string {
  const text = JSON.stringify(entry);
  return `{"sha256":"${digest(text)}","entry":${text}}\n`;
}

type LineReading = { readonly entry: LogEntry } | { readonly why: string };

function readLine(line: string, digest: Digest): LineReading {
  const [, sum, text] = LINE.exec(line) ?? [];
  if (sum === undefined || text === undefined) return { why: 'is not a line of a build log' };
  if (digest(text) !== sum) return { why: 'has been changed: its digest is another' };
  const entry: unknown = JSON.parse(text);
  return isLogEntry(entry) ? { entry } : { why: 'holds no entry that this version knows' };
}

/** Reads a log. Never throws: what is broken is told, and everything else is there. */
export function readBuildLog(bytes: Uint8Array, digest: Digest): BuildLog {
  const decoder = new TextDecoder('utf-8');
  const entries: LogEntry[] = [];
  const findings: Finding[] = [];
  let start = 0;
  let line = 0;
  while (start < bytes.length) {
    line++;
    const feed = bytes.indexOf(LINE_FEED, start);
    const end = feed < 0 ? bytes.length : feed;
    const read = readLine(decoder.decode(bytes.subarray(start, end)), digest);
    if ('why' in read && feed < 0)
      return {
        entries,
        wholeBytes: start,
        tornBytes: bytes.length - start,
        lacksLineBreak: false,
        findings: [...findings, torn(line)],
      };
    if ('why' in read) findings.push(broken(line, read.why));
    else entries.push(read.entry);
    if (feed < 0)
      return {
        entries,
        wholeBytes: bytes.length,
        tornBytes: 0,
        lacksLineBreak: true,
        findings: [...findings, ...gaps(entries)],
      };
    start = feed + 1;
  }
  return {
    entries,
    wholeBytes: bytes.length,
    tornBytes: 0,
    lacksLineBreak: false,
    findings: [...findings, ...gaps(entries)],
  };
}

const torn = (line: number): Finding => ({
  code: 'torn-entry',
  severity: 'warning',
  path: '',
  value: 'this entry',
  line,
  allowed: 'was being written when the writing was ended',
  remedy: 'add it again; the next entry takes its place',
});

const broken = (line: number, why: string): Finding => ({
  code: 'broken-entry',
  severity: 'error',
  path: '',
  value: 'this line',
  line,
  allowed: why,
  remedy: 'put it back from a copy; the other entries are read',
});

/** Numbers that are missing or come twice: lines were taken out or put in by hand. */
function gaps(entries: readonly LogEntry[]): readonly Finding[] {
  return entries.flatMap(({ number }, i) => {
    const wanted = (entries[i - 1]?.number ?? 0) + 1;
    if (number === wanted) return [];
    return [
      {
        code: 'entry-gap',
        severity: 'warning' as const,
        path: '',
        value: `entry ${number}`,
        allowed: `stands where entry ${wanted} belongs`,
        remedy: 'put back what is missing from a copy',
      },
    ];
  });
}

/** What to do to a log's file to add an entry: cut it to `keepBytes`, then add `text`. */
export interface Addition {
  readonly keepBytes: number;
  readonly text: string;
  readonly entry: LogEntry;
}

/** The next entry of a log. Its number is given here. */
export function addToLog(log: BuildLog, entry: Omit<LogEntry, 'number'>, digest: Digest): Addition {
  const number = Math.max(0, ...log.entries.map((one) => one.number)) + 1;
  const whole: LogEntry = { number, ...entry };
  return {
    keepBytes: log.wholeBytes,
    text: `${log.lacksLineBreak ? '\n' : ''}${logLine(whole, digest)}`,
    entry: whole,
  };
}
