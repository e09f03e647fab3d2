/** A place in TOML text that moves forward only. The text has been parsed before, so it is known to be well formed. */
export interface Cursor {
  readonly text: string;
  at: number;
}

const BARE = /[A-Za-z0-9_-]/;
const ENDS_A_VALUE = /[,\]}\n#]/;

/** True when the text goes on with `what`. */
export function ahead(cursor: Cursor, what: string): boolean {
  return cursor.text.startsWith(what, cursor.at);
}

function skipWhile(cursor: Cursor, pattern: RegExp): void {
  while (cursor.at < cursor.text.length && pattern.test(cursor.text.charAt(cursor.at))) cursor.at++;
}

/** Over spaces and tabs. */
export function skipSpace(cursor: Cursor): void {
  skipWhile(cursor, /[ \t]/);
}

/** Over spaces, line ends and comments. */
export function skipBlank(cursor: Cursor): void {
  skipWhile(cursor, /\s/);
  while (ahead(cursor, '#')) {
    skipWhile(cursor, /[^\n]/);
    skipWhile(cursor, /\s/);
  }
}

/** Over a string of any of the four kinds; gives its content, with `\"` and the like left as written. */
export function readString(cursor: Cursor): string {
  const quote = cursor.text.charAt(cursor.at);
  const fence = ahead(cursor, quote.repeat(3)) ? quote.repeat(3) : quote;
  const start = cursor.at + fence.length;
  cursor.at = start;
  while (cursor.at < cursor.text.length && !ahead(cursor, fence))
    cursor.at += quote === '"' && ahead(cursor, '\\') ? 2 : 1;
  const end = cursor.at;
  cursor.at += fence.length;
  // Up to two more quotes may belong to the content of a multi-line string.
  if (fence.length === 3) while (ahead(cursor, quote)) cursor.at++;
  return cursor.text.slice(start, end);
}

function readKeyPart(cursor: Cursor): string {
  const first = cursor.text.charAt(cursor.at);
  if (first === '"' || first === "'") return readString(cursor);
  const start = cursor.at;
  skipWhile(cursor, BARE);
  return cursor.text.slice(start, cursor.at);
}

/** Over a dotted key such as `a."b c".d`; gives its parts. */
export function readKey(cursor: Cursor): string[] {
  const parts = [readKeyPart(cursor)];
  skipSpace(cursor);
  while (ahead(cursor, '.')) {
    cursor.at++;
    skipSpace(cursor);
    parts.push(readKeyPart(cursor));
    skipSpace(cursor);
  }
  return parts;
}

/** Over a number, date, true or false. */
export function skipScalar(cursor: Cursor): void {
  while (cursor.at < cursor.text.length && !ENDS_A_VALUE.test(cursor.text.charAt(cursor.at))) cursor.at++;
}
