import { join, resolve } from 'node:path';
import { sha256Hex } from '../sha256.ts';
import { errorCode, type FolderIo, nodeFolderIo } from './folder-io.ts';
import { manifestIn } from './inspect-folder.ts';

/**
 * One file of the pack in a folder, as the pack was made; undefined when there is no pack, it has no such file, or the file is not
 * what its manifest says.
 */
export async function readPackFile(
  folder: string,
  path: string,
  io: FolderIo = nodeFolderIo,
): Promise<Uint8Array | undefined> {
  try {
    const at = resolve(folder);
    const listed = (await manifestIn(io, at))?.files.find((file) => file.path === path);
    if (listed === undefined || (await io.kindOf(join(at, path))) !== 'file') return undefined;
    const bytes = await io.read(join(at, path));
    return sha256Hex(bytes) === listed.sha256 ? bytes : undefined;
  } catch (error) {
    // What cannot be read is as good as not there; writing the pack will say what is wrong with the folder.
    if (errorCode(error) === '') throw error;
    return undefined;
  }
}
