import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { sha256, snapshot } from './command.ts';

interface Manifest {
  readonly design: { readonly text: string; readonly sha256: string };
  readonly files: readonly { readonly path: string; readonly bytes: number; readonly sha256: string }[];
}

/** What is wrong with a pack folder, judged by its manifest alone: nothing when every file is there, whole, and no other. */
export function faultsOfPack(folder: string): string[] {
  const manifest: Manifest = JSON.parse(readFileSync(join(folder, 'pack.json'), 'utf8'));
  const there = new Map([...snapshot(folder)].filter(([path, word]) => word !== 'folder' && path !== 'pack.json'));
  const faults = manifest.files.flatMap(({ path, bytes, sha256: hash }) => {
    const word = there.get(path);
    there.delete(path);
    if (word !== hash) return [`${path}: ${word === undefined ? 'missing' : 'changed'}`];
    return readFileSync(join(folder, path)).length === bytes ? [] : [`${path}: size`];
  });
  if (sha256(manifest.design.text) !== manifest.design.sha256) faults.push('the design text has another hash');
  return [...faults, ...[...there.keys()].map((path) => `${path}: not in the manifest`)];
}

/** The design text that a pack was made from. */
export function designTextOf(folder: string): string {
  const manifest: Manifest = JSON.parse(readFileSync(join(folder, 'pack.json'), 'utf8'));
  return manifest.design.text;
}
