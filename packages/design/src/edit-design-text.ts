import type { Finding } from './finding.ts';
import { type KeyPath, pathText } from './path.ts';
import { parseText } from './toml.ts';
import { scanText } from './toml-scan.ts';

/** The text with one value changed, or why it was left as it is. */
export type TextEdit = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly finding: Finding };

/** What can be written in place of a value: text such as `"6 mm"` (without its quotes), a number, true or false. */
export type NewValue = string | number | boolean;

function refused(path: string, code: string, words: Pick<Finding, 'value' | 'allowed' | 'remedy'>): TextEdit {
  return { ok: false, finding: { code, severity: 'error', path, ...words } };
}

/** As TOML writes it. JSON escapes are a subset of TOML's but for delete, which TOML wants escaped (TOML 1.0, "String"). */
function tokenOf(value: NewValue): string {
  if (typeof value === 'string') return JSON.stringify(value).replace(/\u007f/g, '\\u007F');
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw new RangeError(`a design holds finite numbers, not ${value}`);
  }
  // A minus before nought would not be read back.
  return String(value === 0 ? 0 : value);
}

/** `layer[0].length` → its keys. Throws RangeError for what is no path of a finding. */
function keysOf(path: string): KeyPath {
  const keys: (string | number)[] = [];
  const step = /(?:^|\.)([A-Za-z0-9_-]+|"(?:[^"\\]|\\.)*")|\[(\d+)\]/y;
  while (step.lastIndex < path.length) {
    const [, key, index] = step.exec(path) ?? [];
    if (index !== undefined) keys.push(Number(index));
    else if (key !== undefined) keys.push(key.startsWith('"') ? String(JSON.parse(key)) : key);
    else throw new RangeError(`"${path}" is not the path of a field, such as layer[0].length`);
  }
  if (keys.length === 0) throw new RangeError('the path of a field must not be empty');
  return keys;
}

function isTable(value: unknown): value is Readonly<Record<string | number, unknown>> {
  return typeof value === 'object' && value !== null;
}

/** True when `after` is `before` with nothing but the value at `path` changed, and that to `value`. */
function differsOnlyAt(before: unknown, after: unknown, path: KeyPath, value: NewValue): boolean {
  const [key, ...deeper] = path;
  if (key === undefined) return after === value;
  if (!isTable(before) || !isTable(after)) return false;
  const keys = Object.keys(before);
  if (keys.length !== Object.keys(after).length || Array.isArray(before) !== Array.isArray(after)) return false;
  return keys.every((own) => {
    if (!Object.hasOwn(after, own)) return false;
    if (own === String(key)) return differsOnlyAt(before[own], after[own], deeper, value);
    return sameData(before[own], after[own]);
  });
}

function sameData(a: unknown, b: unknown): boolean {
  if (!isTable(a) || !isTable(b)) return Object.is(a, b);
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length || Array.isArray(a) !== Array.isArray(b)) return false;
  return keys.every((key) => Object.hasOwn(b, key) && sameData(a[key], b[key]));
}

/**
 * Changes one value in the text of a design file and nothing else: comments, order, spacing and line ends stay.
 * `path` is the path of a finding (`layer[0].length`); `value` is written as TOML has it, a quantity as text with its unit
 * (`formatLength(18.2)`). The value must stand in the file already and must not be a table or a list.
 *
 * The new text is read again before it is given back: its data are the old data with that one change. Otherwise, and when the
 * text is no TOML or has no such value, the answer is a finding. Throws RangeError for a path that is none and for a number that is not finite.
 */
export function editDesignText(text: string, path: string, value: NewValue): TextEdit {
  const keys = keysOf(path);
  const token = tokenOf(value);
  const before = parseText(text);
  if ('finding' in before) return { ok: false, finding: before.finding };
  const place = scanText(text).get(pathText(keys))?.value;
  if (place === undefined || '[{'.includes(text.charAt(place.from))) {
    const written = place === undefined ? 'is not written in the design' : 'is a list or a table, not a single value';
    return refused(path, 'not-written', { value: '', allowed: written, remedy: `write it there first, as ${token}` });
  }
  const edited = text.slice(0, place.from) + token + text.slice(place.to);
  const after = parseText(edited);
  if ('file' in after && differsOnlyAt(before.file, after.file, keys, value)) return { ok: true, text: edited };
  return refused(path, 'not-editable', {
    value: text.slice(place.from, place.to),
    allowed: 'cannot be changed without changing something else',
    remedy: 'change it by hand',
  });
}

/** Several changes, one after the other; the first that is refused ends them and nothing is changed. */
export function editDesignTexts(text: string, changes: Readonly<Record<string, NewValue>>): TextEdit {
  let edited: TextEdit = { ok: true, text };
  for (const [path, value] of Object.entries(changes)) {
    if (!edited.ok) return edited;
    edited = editDesignText(edited.text, path, value);
  }
  return edited;
}
