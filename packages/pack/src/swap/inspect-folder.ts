import { join } from 'node:path';
import { MANIFEST_PATH, type Manifest, readManifest } from '../manifest.ts';
import { sha256Hex } from '../sha256.ts';
import type { FolderIo } from './folder-io.ts';
import { busy, type WriteProblem, WriteRefused } from './write-problem.ts';

/** What stands where a pack is to go, when a pack may go there. */
export type Place = { readonly state: 'absent' | 'empty' } | { readonly state: 'pack'; readonly manifest: Manifest };

/** Files that file browsers leave in folders they show; nobody misses them. */
const BROWSER_LITTER: readonly string[] = ['.DS_Store', 'Thumbs.db'];

/**
 * Looks at the place of a pack. Throws WriteRefused for anything that holds, or may hold, work of the user's:
 * a file or link, a folder that is not a pack, a pack with added or changed files.
 */
export async function inspectPlace(io: FolderIo, folder: string): Promise<Place> {
  for (let attempt = 0; attempt < 5; attempt += 1) {
    const before = await manifestIn(io, folder);
    try {
      return await inspectOnce(io, folder);
    } catch (refusal) {
      // Another run may have swapped its pack in between two of our looks: what does not match then is not the user's.
      if (!(refusal instanceof WriteRefused) || isSame(before, await manifestIn(io, folder))) throw refusal;
    }
  }
  throw new WriteRefused(busy(folder));
}

function isSame(a: Manifest | undefined, b: Manifest | undefined): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

async function inspectOnce(io: FolderIo, folder: string): Promise<Place> {
  const kind = await io.kindOf(folder);
  if (kind === undefined) return { state: 'absent' };
  if (kind !== 'folder') throw new WriteRefused(notAFolder(folder, kind));
  const entries = await io.list(folder);
  if (entries.every((entry) => BROWSER_LITTER.includes(entry.name))) return { state: 'empty' };
  const manifest = await manifestIn(io, folder);
  if (manifest === undefined) throw new WriteRefused(notAPack(folder));
  await refuseOwnFiles(io, folder, manifest);
  return { state: 'pack', manifest };
}

/** The manifest in a folder, or undefined when there is none of ours. */
export async function manifestIn(io: FolderIo, folder: string): Promise<Manifest | undefined> {
  const path = join(folder, MANIFEST_PATH);
  return (await io.kindOf(path)) === 'file' ? readManifest(await io.read(path)) : undefined;
}

/** Whether a path is one of those that may be removed together with a pack. */
export function isLitter(path: string): boolean {
  return BROWSER_LITTER.includes(path.split('/').at(-1) ?? '');
}

/** Every file, link and empty folder below a folder, as paths with `/`. Links are not followed. */
export async function listTree(io: FolderIo, folder: string, prefix = ''): Promise<string[]> {
  const found: string[] = [];
  for (const entry of await io.list(join(folder, prefix))) {
    const path = `${prefix}${entry.name}`;
    if (entry.kind !== 'folder') found.push(path);
    else {
      const below = await listTree(io, folder, `${path}/`);
      found.push(...(below.length === 0 ? [`${path}/`] : below));
    }
  }
  return found;
}

async function refuseOwnFiles(io: FolderIo, folder: string, manifest: Manifest): Promise<void> {
  const hashes = new Map(manifest.files.map((file) => [file.path, file.sha256]));
  const added: string[] = [];
  const changed: string[] = [];
  for (const path of await listTree(io, folder)) {
    if (path === MANIFEST_PATH || path.endsWith('/') || isLitter(path)) continue;
    const hash = hashes.get(path);
    if (hash === undefined) added.push(path);
    else if (await isChanged(io, join(folder, path), hash)) changed.push(path);
  }
  if (added.length + changed.length > 0) throw new WriteRefused(ownFiles(folder, added, changed));
}

async function isChanged(io: FolderIo, path: string, hash: string): Promise<boolean> {
  const kind = await io.kindOf(path);
  if (kind === undefined) return false;
  return kind !== 'file' || sha256Hex(await io.read(path)) !== hash;
}

function notAFolder(folder: string, kind: 'file' | 'other'): WriteProblem {
  const why = kind === 'file' ? 'is a file' : 'is a link or a device, not a folder';
  return { code: 'not-a-folder', path: folder, why, remedy: 'give another folder with --out' };
}

function notAPack(folder: string): WriteProblem {
  const why = `holds files, but is not a build pack (no valid ${MANIFEST_PATH})`;
  return { code: 'not-a-pack', path: folder, why, remedy: 'give a new or an empty folder with --out' };
}

function ownFiles(folder: string, added: readonly string[], changed: readonly string[]): WriteProblem {
  const parts = [
    ...(added.length > 0 ? [`holds files that are not of the pack: ${someOf(added)}`] : []),
    ...(changed.length > 0 ? [`holds files changed since the pack was made: ${someOf(changed)}`] : []),
  ];
  const remedy = 'move them elsewhere, or give another folder with --out';
  return { code: 'files-of-yours', path: folder, why: parts.join(', and '), remedy };
}

function someOf(names: readonly string[]): string {
  const shown = names.slice(0, 5).join(', ');
  return names.length > 5 ? `${shown} and ${names.length - 5} more` : shown;
}
