import type { Finding } from './finding.ts';
import { type KeyPath, pathText } from './path.ts';
import type { Locate, Position } from './report.ts';
import { ahead, type Cursor, readKey, readString, skipBlank, skipScalar, skipSpace } from './toml-cursor.ts';

/** Finds nothing: for designs that come from no text. */
export const locateNothing: Locate = () => undefined;

/** Where each key stands, by `pathText`, as an offset into the text. */
type Offsets = Map<string, number>;

interface Scan {
  readonly cursor: Cursor;
  readonly offsets: Offsets;
  /** How many tables each array of tables has so far, by `pathText`. */
  readonly counts: Map<string, number>;
}

/** Remembers the first place of a path and of the tables around it. */
function remember(scan: Scan, path: KeyPath, offset: number): void {
  for (let depth = 1; depth <= path.length; depth++) {
    const key = pathText(path.slice(0, depth));
    if (!scan.offsets.has(key)) scan.offsets.set(key, offset);
  }
}

/** A key of a header, with the last index after each array of tables on the way. */
function withIndices(scan: Scan, key: readonly string[]): KeyPath {
  const path: (string | number)[] = [];
  for (const part of key) {
    path.push(part);
    const count = scan.counts.get(pathText(path));
    if (count !== undefined) path.push(count - 1);
  }
  return path;
}

/** Over `[a.b]` or `[[a.b]]`; gives the path of the table it opens. */
function readHeader(scan: Scan): KeyPath {
  const { cursor } = scan;
  const start = cursor.at;
  const isArray = ahead(cursor, '[[');
  cursor.at += isArray ? 2 : 1;
  skipSpace(cursor);
  const key = readKey(cursor);
  skipScalar(cursor);
  cursor.at += isArray ? 2 : 1;
  if (isArray) {
    const own = pathText([...withIndices(scan, key.slice(0, -1)), ...key.slice(-1)]);
    scan.counts.set(own, (scan.counts.get(own) ?? 0) + 1);
  }
  const path = withIndices(scan, key);
  remember(scan, path, start);
  return path;
}

function readPair(scan: Scan, table: KeyPath): void {
  const { cursor } = scan;
  const start = cursor.at;
  const path = [...table, ...readKey(cursor)];
  remember(scan, path, start);
  if (ahead(cursor, '=')) cursor.at++;
  skipSpace(cursor);
  readValue(scan, path);
}

/** Over `[...]` or `{...}`, one item at a time. */
function readItems(scan: Scan, close: string, readItem: (index: number) => void): void {
  const { cursor } = scan;
  cursor.at++;
  for (let index = 0; cursor.at < cursor.text.length; index++) {
    skipBlank(cursor);
    if (ahead(cursor, close)) break;
    const before = cursor.at;
    readItem(index);
    skipBlank(cursor);
    if (ahead(cursor, ',')) cursor.at++;
    if (cursor.at === before) cursor.at++;
  }
  cursor.at++;
}

function readValue(scan: Scan, path: KeyPath): void {
  const { cursor } = scan;
  if (ahead(cursor, '"') || ahead(cursor, "'")) readString(cursor);
  else if (ahead(cursor, '{')) readItems(scan, '}', () => readPair(scan, path));
  else if (ahead(cursor, '[')) {
    readItems(scan, ']', (index) => {
      remember(scan, [...path, index], cursor.at);
      readValue(scan, [...path, index]);
    });
  } else skipScalar(cursor);
}

function scanText(text: string): Offsets {
  const scan: Scan = { cursor: { text, at: 0 }, offsets: new Map(), counts: new Map() };
  const { cursor } = scan;
  if (text.startsWith('\ufeff')) cursor.at = 1;
  let table: KeyPath = [];
  for (skipBlank(cursor); cursor.at < text.length; skipBlank(cursor)) {
    const before = cursor.at;
    if (ahead(cursor, '[')) table = readHeader(scan);
    else readPair(scan, table);
    if (cursor.at === before) cursor.at++;
  }
  return scan.offsets;
}

function positionOf(text: string, offset: number): Position {
  const before = text.slice(0, offset);
  return { line: before.split('\n').length, column: offset - before.lastIndexOf('\n') };
}

/** `a.b[0].c` → `a.b[0]` → `a.b` → `a` → undefined. A full stop inside quotes only makes the steps smaller. */
function around(path: string): string | undefined {
  const end = Math.max(path.lastIndexOf('.'), path.lastIndexOf('['));
  return end > 0 ? path.slice(0, end) : undefined;
}

function nearestPosition(text: string, offsets: Offsets, path: string): Position | undefined {
  for (let own: string | undefined = path; own !== undefined; own = around(own)) {
    const offset = offsets.get(own);
    if (offset !== undefined) return positionOf(text, offset);
  }
  return undefined;
}

/**
 * Finds keys in TOML text that has been parsed without error: the place of a key, or of the nearest table around a key that is not there.
 * The text is scanned when the first place is asked for.
 */
export function locateIn(text: string): Locate {
  let offsets: Offsets | undefined;
  return (path) => {
    offsets ??= scanText(text);
    return nearestPosition(text, offsets, pathText(path));
  };
}

/**
 * The findings with their place in the text of the design file they are about, for those found after reading. What has a place keeps it.
 * The text must have been read without a syntax error.
 */
export function placeFindings(findings: readonly Finding[], text: string): readonly Finding[] {
  if (findings.every((finding) => finding.line !== undefined)) return findings;
  const offsets = scanText(text);
  return findings.map((finding) =>
    finding.line === undefined ? { ...finding, ...nearestPosition(text, offsets, finding.path) } : finding,
  );
}
