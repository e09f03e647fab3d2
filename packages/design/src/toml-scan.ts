import { type KeyPath, pathText } from './path.ts';
import { ahead, type Cursor, readKey, readString, skipBlank, skipScalar, skipSpace } from './toml-cursor.ts';

/** Where a key stands in the text, and from where to where its value does, as offsets. A table of its own has no value. */
export interface Place {
  readonly key: number;
  readonly value?: { readonly from: number; readonly to: number };
}

/** By `pathText`. */
type Places = Map<string, Place>;

interface Scan {
  readonly cursor: Cursor;
  readonly places: Places;
  /** How many tables each array of tables has so far, by `pathText`. */
  readonly counts: Map<string, number>;
}

/** Remembers the first place of a path and of the tables around it. */
function remember(scan: Scan, path: KeyPath, offset: number): void {
  for (let depth = 1; depth <= path.length; depth++) {
    const key = pathText(path.slice(0, depth));
    if (!scan.places.has(key)) scan.places.set(key, { key: offset });
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
  const from = cursor.at;
  readAnyValue(scan, path);
  const key = pathText(path);
  const to = from + cursor.text.slice(from, cursor.at).trimEnd().length;
  scan.places.set(key, { key: scan.places.get(key)?.key ?? from, value: { from, to } });
}

function readAnyValue(scan: Scan, path: KeyPath): void {
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

/** The places of all keys of TOML text that has been parsed without error. */
export function scanText(text: string): ReadonlyMap<string, Place> {
  const scan: Scan = { cursor: { text, at: 0 }, places: new Map(), counts: new Map() };
  const { cursor } = scan;
  if (text.startsWith('\ufeff')) cursor.at = 1;
  let table: KeyPath = [];
  for (skipBlank(cursor); cursor.at < text.length; skipBlank(cursor)) {
    const before = cursor.at;
    if (ahead(cursor, '[')) table = readHeader(scan);
    else readPair(scan, table);
    if (cursor.at === before) cursor.at++;
  }
  return scan.places;
}
