import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that holds the whole project. */
export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** What is not ours, or made by a command. */
const LEFT_OUT = new Set(['node_modules', 'dist', '.git', '.turbo', 'packs', 'output']);

export interface Manifest {
  readonly name: string;
  readonly version: string;
  readonly license?: string;
  readonly scripts?: Readonly<Record<string, string>>;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
  readonly bin?: Readonly<Record<string, string>>;
}

/** Files of the project as paths from its root, with `/`, in order. */
export function projectFiles(folder = '.'): string[] {
  const entries = readdirSync(join(ROOT, folder), { withFileTypes: true });
  const found = entries.flatMap((entry) => {
    if (LEFT_OUT.has(entry.name)) return [];
    const path = join(folder, entry.name);
    return entry.isDirectory() ? projectFiles(path) : entry.isFile() ? [path.split(sep).join('/')] : [];
  });
  return found.sort();
}

export function readText(path: string): string {
  return readFileSync(join(ROOT, path), 'utf8');
}

export function readManifest(folder: string): Manifest {
  return JSON.parse(readText(join(folder, 'package.json')));
}

/** Folder names under `packages/`. */
export const PACKAGES: readonly string[] = readdirSync(join(ROOT, 'packages'), { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map((entry) => entry.name)
  .sort();
