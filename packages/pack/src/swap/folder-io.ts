// The only file of this package that touches the file system.
import { lstat, mkdir, open, readdir, readFile, rename, rm, rmdir, unlink } from 'node:fs/promises';

export type EntryKind = 'file' | 'folder' | 'other';

/**
 * What the swap-in asks of a file system. Every call either does all of its work or rejects with an error that has
 * the system's `code` (`ENOSPC`, `EACCES`, …).
 */
export interface FolderIo {
  /** What stands at a path, links not followed; undefined for nothing. */
  kindOf(path: string): Promise<EntryKind | undefined>;
  list(folder: string): Promise<{ readonly name: string; readonly kind: EntryKind }[]>;
  read(file: string): Promise<Uint8Array>;
  /** Creates a file that must not exist yet, and returns once the disk has it. */
  writeNew(file: string, bytes: Uint8Array): Promise<void>;
  makeFolder(folder: string): Promise<void>;
  /** Makes a folder and those above it; gives the topmost one that it had to make. */
  makeFolders(folder: string): Promise<string | undefined>;
  /** Returns once the disk has the folder's list of names. */
  syncFolder(folder: string): Promise<void>;
  rename(from: string, to: string): Promise<void>;
  removeFile(file: string): Promise<void>;
  /** Removes an empty folder; rejects when something is in it. */
  removeEmptyFolder(folder: string): Promise<void>;
  removeTree(folder: string): Promise<void>;
  isRunning(processId: number): boolean;
}

/** The system's own files. */
export const nodeFolderIo: FolderIo = {
  kindOf,
  list: async (folder) =>
    (await readdir(folder, { withFileTypes: true }))
      .map((entry) => ({ name: entry.name, kind: kindOfEntry(entry) }))
      .sort((a, b) => (a.name < b.name ? -1 : 1)),
  read: (file) => readFile(file),
  writeNew,
  makeFolder: async (folder) => void (await mkdir(folder)),
  makeFolders: (folder) => mkdir(folder, { recursive: true }),
  syncFolder,
  rename: (from, to) => rename(from, to),
  removeFile: (file) => unlink(file),
  removeEmptyFolder: (folder) => rmdir(folder),
  removeTree: (folder) => rm(folder, { recursive: true, force: true }),
  isRunning,
};

/** The system's word for what went wrong (`ENOSPC`), or '' when an error carries none. */
export function errorCode(error: unknown): string {
  const code = error instanceof Error ? (error as NodeJS.ErrnoException).code : undefined;
  return typeof code === 'string' ? code : '';
}

interface EntryTest {
  isFile(): boolean;
  isDirectory(): boolean;
}

function kindOfEntry(entry: EntryTest): EntryKind {
  if (entry.isFile()) return 'file';
  return entry.isDirectory() ? 'folder' : 'other';
}

async function kindOf(path: string): Promise<EntryKind | undefined> {
  try {
    return kindOfEntry(await lstat(path));
  } catch (error) {
    if (['ENOENT', 'ENOTDIR'].includes(errorCode(error))) return undefined;
    throw error;
  }
}

async function writeNew(file: string, bytes: Uint8Array): Promise<void> {
  const handle = await open(file, 'wx');
  try {
    await handle.writeFile(bytes);
    await handle.sync();
  } finally {
    await handle.close();
  }
}

async function syncFolder(folder: string): Promise<void> {
  // Windows opens no folder as a file; its renames are journalled by the file system.
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

function isRunning(processId: number): boolean {
  try {
    process.kill(processId, 0);
    return true;
  } catch (error) {
    // EPERM: it runs, as another user.
    return errorCode(error) === 'EPERM';
  }
}
