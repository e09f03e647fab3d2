import type { z } from 'zod';
import { nearestWords } from '../nearest.ts';
import type { KeyPath } from '../path.ts';
import type { Report } from '../report.ts';
import type { JsonSchema } from './json-schema.ts';
import { knownKeys } from './known-keys.ts';

type Issue = z.core.$ZodIssue;

function keyPath(path: readonly PropertyKey[]): KeyPath {
  return path.map((step) => (typeof step === 'symbol' ? String(step) : step));
}

/** The value at a path of a raw file, or undefined. */
function valueAt(file: unknown, path: KeyPath): unknown {
  let value = file;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Readonly<Record<string | number, unknown>>)[step];
  }
  return value;
}

const LONGEST_SHOWN = 60;

/** Text in quotes, except a quantity, which reads better without them. */
function quoted(text: string): string {
  return /^[+-]?[.\d][\d.,]*\s*[A-Za-z]+$/.test(text) ? text : JSON.stringify(text);
}

/** As TOML writes it. */
function numberText(value: unknown): string {
  if (value === Number.POSITIVE_INFINITY) return 'inf';
  if (value === Number.NEGATIVE_INFINITY) return '-inf';
  return Number.isNaN(value) ? 'nan' : String(value);
}

/** A value as a message shows it: text in quotes, long text cut, '' for none and for whole tables. */
function shownValue(value: unknown): string {
  if (value === undefined || value === null) return '';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a table';
  const text = typeof value === 'string' ? quoted(value) : numberText(value);
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}...` : text;
}

interface Said {
  readonly code: string;
  readonly allowed: string;
  readonly remedy: string;
}

function list(words: readonly unknown[]): string {
  const quoted = words.map((word) => (typeof word === 'string' ? `"${word}"` : String(word)));
  return quoted.length < 2 ? quoted.join('') : `${quoted.slice(0, -1).join(', ')} or ${quoted.at(-1)}`;
}

function ofChoice(words: readonly unknown[], value: unknown): Said {
  const texts = words.filter((word) => typeof word === 'string');
  const near = typeof value === 'string' ? nearestWords(value, texts, 1)[0] : undefined;
  return {
    code: value === undefined ? 'missing-field' : 'unknown-word',
    allowed: `one of ${list(words)}`,
    remedy: near === undefined ? 'write one of them' : `did you mean "${near}"?`,
  };
}

const TYPE_WORDS: Readonly<Record<string, Pick<Said, 'allowed' | 'remedy'>>> = {
  object: { allowed: 'a table', remedy: 'write it as a table with its fields' },
  record: { allowed: 'a table', remedy: 'write it as a table with its fields' },
  array: { allowed: 'a list', remedy: 'write a list, or a table of its own with double brackets such as [[layer]]' },
  tuple: { allowed: 'a list', remedy: 'write a list between [ and ]' },
};

function codeParameter(params: Readonly<Record<string, unknown>> | undefined): string {
  const { code } = params ?? {};
  return typeof code === 'string' ? code : 'wrong-value';
}

/** The schema's own message, which is "<allowed>; <remedy>", or general words for an issue that has none. */
function ofMessage(issue: Issue, value: unknown): Said {
  const code = issue.code === 'custom' ? codeParameter(issue.params) : codeOf(issue, value);
  const cut = issue.message.indexOf('; ');
  if (cut > 0) return { code, allowed: issue.message.slice(0, cut), remedy: issue.message.slice(cut + 2) };
  const words = issue.code === 'invalid_type' ? TYPE_WORDS[issue.expected] : undefined;
  return { code, allowed: 'not a value this field takes', remedy: 'see the description of the field', ...words };
}

function codeOf(issue: Issue, value: unknown): string {
  if (value === undefined) return 'missing-field';
  if (issue.code === 'invalid_type')
    return Number.isFinite(value) && issue.expected === 'string' ? 'missing-unit' : 'wrong-type';
  return issue.code === 'too_small' || issue.code === 'too_big' ? 'out-of-range' : 'wrong-value';
}

function unknownKey(key: string, known: ReturnType<typeof knownKeys>, what: string): Said {
  const here = known.own.slice(0, 16).join(', ');
  const leaveOut = here === '' ? 'leave it out' : `leave it out; fields here: ${here}`;
  if (known.any.includes(key)) {
    return { code: 'unknown-key', allowed: 'does not go with the kind of this table', remedy: leaveOut };
  }
  const near = nearestWords(key, known.own, 1)[0];
  return {
    code: 'unknown-key',
    allowed: `is not a field of ${what}`,
    remedy: near === undefined ? leaveOut : `did you mean ${near}?`,
  };
}

function reportUnknownKeys(keys: readonly string[], path: KeyPath, place: Place): void {
  const { what, schema } = place.kind;
  const known = knownKeys(path, valueAt(place.file, path), schema());
  for (const key of keys) place.report.error({ path: [...path, key], ...unknownKey(key, known, what) });
}

/** Of a choice of types, the branch the writer meant: the one whose own type fits, so that its fields are at fault. */
function meantBranch(errors: readonly (readonly Issue[])[]): readonly Issue[] | undefined {
  const isTypeMismatch = (issue: Issue) =>
    issue.path.length === 0 && (issue.code === 'invalid_type' || issue.code === 'invalid_value');
  return errors.find((branch) => !branch.some(isTypeMismatch));
}

/** A key that a table of own items cannot have: the key itself is the value at fault. */
function reportKey(issue: Issue & { code: 'invalid_key' }, path: KeyPath, report: Report): void {
  const first = issue.issues[0];
  const value = path.at(-1);
  report.error({ path, value: shownValue(value), ...ofMessage(first ?? issue, value) });
}

/** A kind of file: what messages call it, and its fields. */
export interface FileForm {
  readonly what: string;
  readonly schema: () => JsonSchema;
}

interface Place {
  readonly file: unknown;
  readonly kind: FileForm;
  readonly base: KeyPath;
  readonly report: Report;
}

function reportUnion(issue: Issue & { code: 'invalid_union' }, path: KeyPath, place: Place): void {
  const value = valueAt(place.file, path);
  const options = 'options' in issue && Array.isArray(issue.options) ? issue.options : undefined;
  if (options !== undefined) {
    // Where the word may be left out, nothing is one of the options; it is not a word to write.
    const words = options.filter((option) => option !== undefined);
    place.report.error({ path, value: shownValue(value), ...ofChoice(words, value) });
    return;
  }
  const branch = value === undefined ? undefined : meantBranch(issue.errors);
  if (branch !== undefined) reportIssues(branch, { ...place, base: path });
  else place.report.error({ path, value: shownValue(value), ...ofMessage(issue, value) });
}

/** Puts what the schema found into the report, in the words of findings. */
export function reportIssues(issues: readonly Issue[], place: Place): void {
  for (const issue of issues) {
    const path = [...place.base, ...keyPath(issue.path)];
    const value = valueAt(place.file, path);
    if (issue.code === 'unrecognized_keys') reportUnknownKeys(issue.keys, path, place);
    else if (issue.code === 'invalid_union') reportUnion(issue, path, place);
    else if (issue.code === 'invalid_key') reportKey(issue, path, place.report);
    else if (issue.code === 'invalid_value' && !issue.message.includes('; ')) {
      place.report.error({ path, value: shownValue(value), ...ofChoice(issue.values, value) });
    } else place.report.error({ path, value: shownValue(value), ...ofMessage(issue, value) });
  }
}
