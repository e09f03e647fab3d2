import { mkdir, open, rename, stat, unlink } from 'node:fs/promises';
import { dirname } from 'node:path';
import { systemCode } from './failure.ts';

/** What the build log asks of the file system. */
export interface LogFiles {
  /** With those above it. */
  makeFolder(path: string): Promise<void>;
  /** A new file, or an old one replaced. */
  write(path: string, bytes: Uint8Array): Promise<void>;
  rename(from: string, to: string): Promise<void>;
  remove(path: string): Promise<void>;
  /** Size in bytes; 0 when there is no such file. */
  size(path: string): Promise<number>;
  truncate(path: string, bytes: number): Promise<void>;
  /** Adds to the end of a file, which is made when it is not there. */
  append(path: string, bytes: Uint8Array): Promise<void>;
}

type Handle = Awaited<ReturnType<typeof open>>;

/** Some systems keep no folders in step; nothing is lost then that was not at stake before. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => undefined);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}

async function sizeOf(path: string): Promise<number> {
  try {
    return (await stat(path)).size;
  } catch (error) {
    if (systemCode(error) === 'ENOENT') return 0;
    throw error;
  }
}

/** `waits`: until what was written is on the disk. */
export function logFiles({ waits }: { readonly waits: boolean }): LogFiles {
  const withFile = async (path: string, flags: string, work: (handle: Handle) => Promise<void>) => {
    const handle = await open(path, flags);
    try {
      await work(handle);
      if (waits) await handle.sync();
    } finally {
      await handle.close();
    }
  };
  const settled = async (path: string) => {
    if (waits) await syncFolder(dirname(path));
  };
  return {
    makeFolder: async (path) => void (await mkdir(path, { recursive: true })),
    write: (path, bytes) => withFile(path, 'w', (handle) => handle.writeFile(bytes)),
    rename: async (from, to) => {
      await rename(from, to);
      await settled(to);
    },
    remove: (path) => unlink(path),
    size: sizeOf,
    truncate: (path, bytes) => withFile(path, 'r+', (handle) => handle.truncate(bytes)),
    append: async (path, bytes) => {
      await withFile(path, 'a', (handle) => handle.writeFile(bytes));
      await settled(path);
    },
  };
}

export const nodeLogFiles: LogFiles = logFiles({ waits: true });
