import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  existsSync,
  lstatSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  realpathSync,
  rmSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';

/** The folder that holds the whole project. */
export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
/** The command as it is installed: it runs the built output in plain Node. */
const COMMAND = join(ROOT, 'packages', 'cli', 'bin', 'sheetwave.mjs');

const made: string[] = [];
afterAll(() => {
  for (const folder of made) rmSync(folder, { recursive: true, force: true });
});

/** A new empty folder, removed after the tests of the file. */
export function newFolder(): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'sheetwave-')));
  made.push(folder);
  return folder;
}

export interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface How {
  readonly cwd: string;
  readonly input?: string | Uint8Array;
  readonly env?: Readonly<Record<string, string>>;
  /** Another user to run as; only root may ask for one. */
  readonly uid?: number;
  /** A shell line before the command, such as a limit. */
  readonly before?: string;
  /** A program that runs the shell, such as one that gives it mounts of its own. */
  readonly under?: readonly string[];
}

/** Starts `sheetwave` with some arguments. */
export function startCommand(args: readonly string[], how: How): ChildProcess {
  const [program, ...rest] = programOf(args, how);
  if (program === undefined) throw new Error('no program');
  const env = { ...process.env, NO_COLOR: '', ...ownCache(how), ...how.env };
  const child = spawn(program, rest, { cwd: how.cwd, env, ...(how.uid === undefined ? {} : { uid: how.uid }) });
  child.stdin?.on('error', () => undefined);
  child.stdin?.end(how.input ?? '');
  return child;
}

let cache: string | undefined;

/** What the developer's own predictions left in the cache must not get into the packs of tests. */
function ownCache({ env = {}, uid }: How): Readonly<Record<string, string>> {
  if (uid !== undefined || 'HOME' in env || 'XDG_CACHE_HOME' in env) return {};
  cache ??= newFolder();
  return { XDG_CACHE_HOME: cache };
}

function programOf(args: readonly string[], { before, under = [] }: How): string[] {
  const plain = [process.execPath, COMMAND, ...args];
  if (before === undefined) return [...under, ...plain];
  return [...under, 'sh', '-c', `${before}\nexec "$@"`, 'sh', ...plain];
}

/** Collects what a started command says until it ends. */
export function ended(child: ChildProcess): Promise<Ended> {
  let [stdout, stderr] = ['', ''];
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    stdout += text;
  });
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    stderr += text;
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code, signal) => resolve({ code, signal, stdout, stderr }));
  });
}

/** Runs `sheetwave` to its end. */
export const sheetwave = (args: readonly string[], how: How): Promise<Ended> => ended(startCommand(args, how));

/** Everything below a folder: its path with `/` and a word for its contents. */
export function snapshot(folder: string): Map<string, string> {
  const found = new Map<string, string>();
  const walk = (at: string) => {
    for (const name of readdirSync(at).sort()) {
      const path = join(at, name);
      const kind = lstatSync(path);
      found.set(relative(folder, path).split(sep).join('/'), kind.isDirectory() ? 'folder' : wordFor(path));
      if (kind.isDirectory()) walk(path);
    }
  };
  walk(folder);
  return found;
}

function wordFor(path: string): string {
  const kind = lstatSync(path);
  if (kind.isSymbolicLink()) return `link to ${readlinkSync(path)}`;
  return kind.isFile() ? sha256(readFileSync(path)) : 'other';
}

export function sha256(bytes: Uint8Array | string): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/** The text of one of the project's own examples. */
export function exampleText(name: string): string {
  return readFileSync(join(ROOT, 'examples', name, 'design.toml'), 'utf8');
}

/** Names of all examples that are designs. */
export function exampleNames(): string[] {
  return readdirSync(join(ROOT, 'examples'), { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(join(ROOT, 'examples', entry.name, 'design.toml')))
    .map((entry) => entry.name)
    .sort();
}
