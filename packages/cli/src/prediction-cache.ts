import { createHash } from 'node:crypto';
import { mkdir, open, readdir, readFile, rename, stat, unlink } from 'node:fs/promises';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { type PredictionRecord, type PredictionRequest, readRecord, readRequest, recordText } from '@sheetwave/pack';
import { readStart } from './read-input.ts';
import type { Terminal } from './terminal.ts';

/*
 * Predictions that were made before, a file each under its key. The first line is the SHA-256 of the rest, so that a file that was cut
 * short or changed is known and left aside. A file comes in by one rename. Whatever goes wrong here only costs time: nothing throws.
 */

/** Entries that are kept; the ones that were not used for longest go first. */
const MOST_ENTRIES = 60;

/** The folder of the predictions (XDG Base Directory Specification 0.8: `$XDG_CACHE_HOME`, else `$HOME/.cache`). */
export function cacheFolder(env: Terminal['env']): string {
  const given = env.XDG_CACHE_HOME;
  // The specification wants relative paths to be left aside.
  const isAbsolute = given?.startsWith('/') === true || /^[A-Za-z]:[\\/]/.test(given ?? '');
  const base = given !== undefined && isAbsolute ? given : (env.LOCALAPPDATA ?? join(env.HOME ?? homedir(), '.cache'));
  return join(base, 'sheetwave', 'predictions');
}

const ENDING = '.prediction';
const nameOf = (key: string): string => `${key}${ENDING}`;

/** The prediction with this key, or undefined when there is none that is whole. */
export async function cachedPrediction(folder: string, key: string): Promise<PredictionRecord | undefined> {
  const text = await readFile(join(folder, nameOf(key)), 'utf8').catch(() => undefined);
  if (text === undefined) return undefined;
  const lineEnd = text.indexOf('\n');
  const [digest, body] = [text.slice(0, lineEnd), text.slice(lineEnd + 1)];
  if (digest !== digestOf(body)) return undefined;
  const record = readRecord(body);
  return record?.key === key ? record : undefined;
}

/** Bytes at the start of an entry that its request stands in. */
const HEAD_BYTES = 1024;

/**
 * The entries that stand under the key of what they say they were asked for, whole ones only. `keyOf` gives that key; only the start of
 * other entries is read.
 */
export async function cachedOf(
  folder: string,
  keyOf: (request: PredictionRequest) => string,
): Promise<readonly PredictionRecord[]> {
  const names = (await readdir(folder).catch(() => [])).filter((name) => name.endsWith(ENDING)).sort();
  const keys = new Map<string, string>();
  const found: PredictionRecord[] = [];
  for (const name of names) {
    const head = await readStart(join(folder, name), HEAD_BYTES).catch(() => new Uint8Array());
    const asked = /"request":(\{[^{}]*\})/.exec(new TextDecoder().decode(head))?.[1];
    const request = asked === undefined ? undefined : readRequest(asked);
    if (asked === undefined || request === undefined) continue;
    const key = keys.get(asked) ?? keyOf(request);
    keys.set(asked, key);
    const record = name === nameOf(key) ? await cachedPrediction(folder, key) : undefined;
    if (record !== undefined) found.push(record);
  }
  return found;
}

/** Keeps a prediction. False when the disk refused. */
export async function keepPrediction(folder: string, record: PredictionRecord): Promise<boolean> {
  const body = recordText(record);
  const aside = join(folder, `.${nameOf(record.key)}.writing-${process.pid}`);
  try {
    await mkdir(folder, { recursive: true });
    await writeWhole(aside, `${digestOf(body)}\n${body}`);
    await rename(aside, join(folder, nameOf(record.key)));
    await dropOldest(folder);
    return true;
  } catch {
    await unlink(aside).catch(() => undefined);
    return false;
  }
}

const digestOf = (text: string): string => createHash('sha256').update(text).digest('hex');

async function writeWhole(path: string, text: string): Promise<void> {
  const handle = await open(path, 'w');
  try {
    await handle.writeFile(text);
    await handle.sync();
  } finally {
    await handle.close();
  }
}

async function dropOldest(folder: string): Promise<void> {
  const names = (await readdir(folder)).filter((name) => name.endsWith(ENDING));
  if (names.length <= MOST_ENTRIES) return;
  const dated = await Promise.all(names.map(async (name) => ({ name, at: (await stat(join(folder, name))).mtimeMs })));
  const old = dated.sort((a, b) => a.at - b.at).slice(0, names.length - MOST_ENTRIES);
  for (const { name } of old) await unlink(join(folder, name)).catch(() => undefined);
}
