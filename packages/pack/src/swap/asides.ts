import { basename, dirname, join } from 'node:path';
import { MANIFEST_PATH } from '../manifest.ts';
import { errorCode, type FolderIo } from './folder-io.ts';
import { isLitter, listTree, manifestIn } from './inspect-folder.ts';

/** A hidden neighbour of the pack folder; the word in its name says what may be done with it. */
export type AsideRole = 'building' | 'previous' | 'discard';

export interface Aside {
  readonly role: AsideRole;
  readonly path: string;
  readonly processId: number;
  /** `<process>-<count>` of the run that made it. */
  readonly key: string;
}

/** Runs of this very process that are under way. */
const underWay = new Set<string>();
let runs = 0;

export type AsideNames = Readonly<Record<AsideRole, string>> & { readonly key: string };

/** The neighbours of a pack folder for one run; call `endRun` with them when it is over. */
export function beginRun(folder: string): AsideNames {
  runs += 1;
  const key = `${process.pid}-${runs}`;
  underWay.add(key);
  const named = (role: AsideRole) => join(dirname(folder), `.${basename(folder)}.${role}-${key}`);
  return { building: named('building'), previous: named('previous'), discard: named('discard'), key };
}

export function endRun(names: AsideNames): void {
  underWay.delete(names.key);
}

/**
 * Neighbours that an earlier run left when it was killed. Those of runs still under way are not among them.
 * Call it before the run `own` makes any: what bears its key by then is from a process that had the same number.
 */
export async function abandonedAsides(io: FolderIo, folder: string, own: AsideNames): Promise<Aside[]> {
  const found: Aside[] = [];
  for (const entry of await io.list(dirname(folder))) {
    const aside = entry.kind === 'folder' ? asideOf(folder, entry.name) : undefined;
    if (aside !== undefined && isAbandoned(io, aside, own)) found.push(aside);
  }
  return found;
}

function asideOf(folder: string, name: string): Aside | undefined {
  const prefix = `.${basename(folder)}.`;
  if (!name.startsWith(prefix)) return undefined;
  const match = /^(building|previous|discard)-(([0-9]{1,10})-[0-9]+)$/.exec(name.slice(prefix.length));
  if (match === null) return undefined;
  const path = join(dirname(folder), name);
  return { role: match[1] as AsideRole, path, processId: Number(match[3]), key: match[2] ?? '' };
}

function isAbandoned(io: FolderIo, aside: Aside, own: AsideNames): boolean {
  if (aside.processId !== process.pid) return !io.isRunning(aside.processId);
  return aside.key === own.key || !underWay.has(aside.key);
}

/** Renames a set-aside pack to say that it is no longer needed; gives its new path. */
export async function markForDiscard(io: FolderIo, folder: string, aside: Aside): Promise<string> {
  const path = join(dirname(folder), `.${basename(folder)}.discard-${aside.key}`);
  await io.rename(aside.path, path);
  return path;
}

/**
 * Removes what a pack's manifest lists, then its folders, the manifest last. Anything else stays where it is.
 * Gives the folder when something is left in it.
 */
export async function removeOldPack(io: FolderIo, folder: string): Promise<string | undefined> {
  const listed = new Set((await manifestIn(io, folder))?.files.map((file) => file.path));
  for (const path of await listTree(io, folder)) {
    if (listed.has(path) || isLitter(path)) await io.removeFile(join(folder, path));
  }
  await removeEmptyFolders(io, folder);
  const rest = await listTree(io, folder);
  if (rest.some((path) => path !== MANIFEST_PATH)) return folder;
  if (rest.length === 1) await io.removeFile(join(folder, MANIFEST_PATH));
  await io.removeEmptyFolder(folder);
  return undefined;
}

async function removeEmptyFolders(io: FolderIo, folder: string): Promise<void> {
  for (const entry of await io.list(folder)) {
    if (entry.kind !== 'folder') continue;
    const path = join(folder, entry.name);
    await removeEmptyFolders(io, path);
    await io.removeEmptyFolder(path).catch(ignoreNotEmpty);
  }
}

function ignoreNotEmpty(error: unknown): void {
  if (!['ENOTEMPTY', 'EEXIST'].includes(errorCode(error))) throw error;
}
