/*
 * Puts a pack into its folder: whole, or not at all.
 *
 * P is the pack folder. Its hidden neighbours in the same folder, so on the same file system, are
 *   B  .NAME.building-…   the new pack while it is written
 *   O  .NAME.previous-…   the earlier pack, set aside
 *   D  .NAME.discard-…    the earlier pack, no longer needed
 *
 * Invariants
 *  1. P is absent, an empty folder, a whole pack, or not ours. It is never a part of a pack.
 *  2. Nothing is renamed to P before every byte of it and every folder of it is on the disk.
 *  3. O is whole: it came from P by one rename and is never written or removed from under that name.
 *  4. B and D may be removed at any time. D loses only what its manifest lists, the manifest last.
 *  5. While P is absent and was there before, O or B is whole; the next run puts O back before it does anything else.
 *  6. What is not ours is never renamed, changed or removed: P is looked at first, and again just before the swap.
 *  7. A neighbour is touched only by the run that made it, or by a later one once that process has ended.
 *
 * States: what exists, and the function that moves on. A kill in any of them leaves what the line shows.
 *
 *   (1) P, or nothing ──build──► (2) P, part of B ──build──► (3) P, B ──setAside──► (4) O, B ──bringIn──► (5) P new, O
 *        ▲                              │                        │                      │                      │
 *        └────────── dropBuilding ◄─────┴────────────────────────┘◄──────putBack────────┘              release │
 *                                                                                                              ▼
 *   (8) P new ◄──removeOldPack── (7) P new, part of D ◄──removeOldPack── (6) P new, D ◄────────────────────────┘
 *
 * The next run's `recover`: (2), (3) lose B; (4) gets O back as P and loses B; (5) to (7) lose O and D.
 * An interruption (`signal`) is heeded in (1) to (3) only; from (4) on the run goes through to (8).
 */
import { dirname, join, resolve, sep } from 'node:path';
import type { PackFile } from '../manifest.ts';
import {
  type Aside,
  type AsideNames,
  abandonedAsides,
  beginRun,
  endRun,
  markForDiscard,
  removeOldPack,
} from './asides.ts';
import { errorCode, type FolderIo, nodeFolderIo } from './folder-io.ts';
import { inspectPlace, type Place } from './inspect-folder.ts';
import { busy, problemFromError, type WriteProblem, WriteRefused } from './write-problem.ts';

export interface WritePackOptions {
  /** Where the pack goes; folders above it are made. */
  readonly folder: string;
  readonly files: readonly PackFile[];
  /** The folder the user stands in: neither it nor one above it can be swapped away. */
  readonly workingFolder?: string;
  readonly signal?: AbortSignal;
  readonly io?: FolderIo;
}

export type WriteResult =
  | {
      readonly written: true;
      /** Absolute path of the pack. */
      readonly folder: string;
      /** Whether an earlier pack was replaced. */
      readonly replaced: boolean;
      /** Folders that could not be tidied away; the pack itself is complete. */
      readonly leftBehind: readonly string[];
    }
  | { readonly written: false; readonly problem: WriteProblem };

interface Run {
  readonly io: FolderIo;
  readonly folder: string;
  readonly parent: string;
  readonly names: AsideNames;
  readonly signal: AbortSignal | undefined;
}

/**
 * Writes a pack into a folder, in place of an earlier one. Gives a problem, and leaves everything as it was, when the
 * folder is not free or the disk refuses. Throws only for what is not a matter of files.
 */
export async function writePack(options: WritePackOptions): Promise<WriteResult> {
  const folder = resolve(options.folder);
  const io = options.io ?? nodeFolderIo;
  const run: Run = { io, folder, parent: dirname(folder), names: beginRun(folder), signal: options.signal };
  try {
    refuseWorkingFolder(folder, options.workingFolder);
    return await inMadeParents(run, () => writeIn(run, options.files));
  } catch (error) {
    return { written: false, problem: problemFromError(error, folder) };
  } finally {
    endRun(run.names);
  }
}

/**
 * What stands against a pack in a folder, before it is made: work that takes long should not be for nothing. Undefined for nothing that
 * is known yet. Reads only; `writePack` looks again.
 */
export async function problemOfPlace({
  folder: named,
  workingFolder,
  io = nodeFolderIo,
}: Pick<WritePackOptions, 'folder' | 'workingFolder' | 'io'>): Promise<WriteProblem | undefined> {
  const folder = resolve(named);
  try {
    refuseWorkingFolder(folder, workingFolder);
    await inspectPlace(io, folder);
    return undefined;
  } catch (error) {
    return problemFromError(error, folder);
  }
}

function refuseWorkingFolder(folder: string, workingFolder: string | undefined): void {
  if (workingFolder === undefined) return;
  const below = folder.endsWith(sep) ? folder : folder + sep;
  if (`${resolve(workingFolder)}${sep}`.startsWith(below)) {
    const why = 'is the folder you are working in, or one above it, and would be swapped away under you';
    throw new WriteRefused({ code: 'working-folder', path: folder, why, remedy: 'give a folder inside it with --out' });
  }
}

/** Folders made on the way to P go again when the work inside fails. */
async function inMadeParents<T>(run: Run, work: () => Promise<T>): Promise<T> {
  const topmost = await run.io.makeFolders(run.parent);
  try {
    return await work();
  } catch (error) {
    if (topmost !== undefined) await removeMadeParents(run, topmost);
    throw error;
  }
}

async function removeMadeParents(run: Run, topmost: string): Promise<void> {
  try {
    for (let at = run.parent; at.length >= topmost.length; at = dirname(at)) await run.io.removeEmptyFolder(at);
  } catch {
    // Someone has put something there meanwhile: then the folder stays.
  }
}

async function writeIn(run: Run, files: readonly PackFile[]): Promise<WriteResult> {
  await recover(run);
  await inspectPlace(run.io, run.folder);
  const place = await dropBuildingOnFailure(run, async () => {
    await build(run, files);
    const found = await inspectPlace(run.io, run.folder);
    heed(run.signal, run.folder);
    await swap(run, found);
    return found;
  });
  const leftBehind = await tidyUp(run, place);
  return { written: true, folder: run.folder, replaced: place.state === 'pack', leftBehind };
}

/** Brings back what a killed run left between two states; see the table above. */
async function recover(run: Run): Promise<void> {
  const asides = await abandonedAsides(run.io, run.folder, run.names);
  for (const aside of asides) {
    if (aside.role === 'building') await run.io.removeTree(aside.path);
    else if (aside.role === 'discard') await removeOldPack(run.io, aside.path);
    else await recoverPrevious(run, aside);
  }
}

async function recoverPrevious(run: Run, aside: Aside): Promise<void> {
  if ((await run.io.kindOf(run.folder)) !== undefined) {
    await removeOldPack(run.io, await markForDiscard(run.io, run.folder, aside));
    return;
  }
  await run.io.rename(aside.path, run.folder);
  await run.io.syncFolder(run.parent);
}

async function dropBuildingOnFailure<T>(run: Run, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    // If even this fails the next run removes it (state 2 or 3).
    await run.io.removeTree(run.names.building).catch(() => undefined);
    throw error;
  }
}

/** (1) to (3). */
async function build(run: Run, files: readonly PackFile[]): Promise<void> {
  const folders = foldersOf(files);
  heed(run.signal, run.folder);
  await run.io.makeFolder(run.names.building);
  for (const folder of folders) await run.io.makeFolder(join(run.names.building, folder));
  for (const file of files) {
    heed(run.signal, run.folder);
    await run.io.writeNew(join(run.names.building, file.path), file.bytes);
  }
  for (const folder of ['', ...folders]) await run.io.syncFolder(join(run.names.building, folder));
}

/** Every folder of the files, each after the one it is in. */
function foldersOf(files: readonly PackFile[]): string[] {
  const folders = new Set<string>();
  for (const { path } of files) {
    for (let at = path.lastIndexOf('/'); at > 0; at = path.lastIndexOf('/', at - 1)) folders.add(path.slice(0, at));
  }
  return [...folders].sort();
}

function heed(signal: AbortSignal | undefined, folder: string): void {
  if (signal?.aborted !== true) return;
  const why = 'was not written: interrupted';
  throw new WriteRefused({ code: 'interrupted', path: folder, why, remedy: 'run the command again' });
}

/** (3) to (5). The earlier pack comes back when the new one cannot come in. */
async function swap(run: Run, place: Place): Promise<void> {
  if (place.state === 'absent') return bringIn(run);
  await run.io.rename(run.folder, run.names.previous);
  try {
    await bringIn(run);
  } catch (error) {
    await putBack(run);
    throw error;
  }
}

async function bringIn(run: Run): Promise<void> {
  try {
    await run.io.rename(run.names.building, run.folder);
  } catch (error) {
    if (!['ENOTEMPTY', 'EEXIST', 'ENOTDIR'].includes(errorCode(error))) throw error;
    throw new WriteRefused(busy(run.folder));
  }
}

async function putBack(run: Run): Promise<void> {
  // Should this fail as well, the earlier pack is whole under its hidden name and the next run puts it back (state 4).
  await run.io.rename(run.names.previous, run.folder).catch(() => undefined);
}

/** (5) to (8). The new pack is in place: a failure here is told, not thrown. */
async function tidyUp(run: Run, place: Place): Promise<string[]> {
  const left: string[] = [];
  await run.io.syncFolder(run.parent).catch(() => undefined);
  if (place.state === 'absent') return left;
  try {
    await run.io.rename(run.names.previous, run.names.discard);
  } catch {
    return [run.names.previous];
  }
  const rest = await removeOldPack(run.io, run.names.discard).catch(() => run.names.discard);
  if (rest !== undefined) left.push(rest);
  return left;
}
