import { mkdir, open, realpath, rename, unlink } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { Failure, fileFailure, systemCode, whyCode, whyOf } from './failure.ts';
import { visible } from './terminal.ts';

export interface NewFile {
  /** As the user named it. */
  readonly name: string;
  readonly workingFolder: string;
  readonly text: string;
  /** Replace what is there. */
  readonly force: boolean;
}

/**
 * Writes a file whole or not at all: beside its place first, then under its name.
 * Throws a Failure when the file exists and `force` is off, and when the system refuses.
 */
export async function writeNewFile({ name, workingFolder, text, force }: NewFile): Promise<void> {
  const path = resolve(workingFolder, name);
  try {
    await makeFolders(dirname(path));
    if (force) await replace(await realpath(path).catch(() => path), text);
    else await writeExclusively(path, text);
  } catch (error) {
    if (error instanceof Failure) throw error;
    throw systemCode(error) === 'EEXIST' ? existing(name) : fileFailure('cannot-write', refused(name, whyOf(error)));
  }

  async function makeFolders(folder: string): Promise<void> {
    await mkdir(folder, { recursive: true }).catch((error: unknown) => {
      const why = systemCode(error) === 'EEXIST' ? whyCode('ENOTDIR') : whyOf(error);
      throw fileFailure('cannot-write', refused(name, why));
    });
  }
}

async function replace(path: string, text: string): Promise<void> {
  const aside = join(dirname(path), `.${basename(path)}.writing-${process.pid}`);
  await writeExclusively(aside, text);
  try {
    await rename(aside, path);
  } catch (error) {
    await unlink(aside).catch(() => undefined);
    throw error;
  }
}

/** Makes a file that must not be there yet; takes it away again when the text does not fit. */
async function writeExclusively(path: string, text: string): Promise<void> {
  const handle = await open(path, 'wx');
  try {
    await handle.writeFile(text);
    await handle.sync();
  } catch (error) {
    await unlink(path).catch(() => undefined);
    throw error;
  } finally {
    await handle.close();
  }
}

function existing(name: string): Failure {
  return fileFailure('file-exists', `${visible(name)} is there already; give another name, or --force to replace it`);
}

function refused(name: string, why: string): string {
  return `${visible(name)} cannot be written: ${why}`;
}
