import { createHash } from 'node:crypto';
import { mkdir, open, readdir, readFile, rename, stat, unlink } from 'node:fs/promises';
import { homedir } from 'node:os';
import { join } from 'node:path';
import type { Terminal } from './terminal.ts';

/*
 * What was solved before, a file each. The first line is the SHA-256 of the rest, so that a file that was cut short or changed is known
 * and left aside. A file comes in by one rename. Whatever goes wrong here only costs time: nothing throws.
 */

/** Files of one kind that are kept; the ones that were not written for longest go first. */
const MOST_FILES = 60;

/** The folder of the predictions (XDG Base Directory Specification 0.8: `$XDG_CACHE_HOME`, else `$HOME/.cache`). */
export function cacheFolder(env: Terminal['env']): string {
  const given = env.XDG_CACHE_HOME;
  // The specification wants relative paths to be left aside.
  const isAbsolute = given?.startsWith('/') === true || /^[A-Za-z]:[\\/]/.test(given ?? '');
  const base = given !== undefined && isAbsolute ? given : (env.LOCALAPPDATA ?? join(env.HOME ?? homedir(), '.cache'));
  return join(base, 'sheetwave', 'predictions');
}

/** Names of the files with an ending, sorted. */
export async function keptNames(folder: string, ending: string): Promise<readonly string[]> {
  return (await readdir(folder).catch(() => [])).filter((name) => name.endsWith(ending)).sort();
}

/** The text of a kept file, or undefined when there is none that is whole. */
export async function keptText(folder: string, name: string): Promise<string | undefined> {
  const text = await readFile(join(folder, name), 'utf8').catch(() => undefined);
  if (text === undefined) return undefined;
  const lineEnd = text.indexOf('\n');
  const [digest, body] = [text.slice(0, lineEnd), text.slice(lineEnd + 1)];
  return digest === digestOf(body) ? body : undefined;
}

interface Kept {
  /** Name without its ending. */
  readonly key: string;
  readonly ending: string;
  readonly text: string;
}

/** Keeps a text under its name. False when the disk refused. */
export async function keepText(folder: string, { key, ending, text }: Kept): Promise<boolean> {
  const name = `${key}${ending}`;
  const aside = join(folder, `.${name}.writing-${process.pid}`);
  try {
    await mkdir(folder, { recursive: true });
    await writeWhole(aside, `${digestOf(text)}\n${text}`);
    await rename(aside, join(folder, name));
    await dropOldest(folder, ending);
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

async function dropOldest(folder: string, ending: string): Promise<void> {
  const names = await keptNames(folder, ending);
  if (names.length <= MOST_FILES) return;
  const dated = await Promise.all(names.map(async (name) => ({ name, at: (await stat(join(folder, name))).mtimeMs })));
  const old = dated.sort((a, b) => a.at - b.at).slice(0, names.length - MOST_FILES);
  for (const { name } of old) await unlink(join(folder, name)).catch(() => undefined);
}
