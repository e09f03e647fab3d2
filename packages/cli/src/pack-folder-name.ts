import { basename, dirname, resolve } from 'node:path';

/**
 * The folder of a pack when none is given: named for the design file, or for its folder when the file is called
 * `design.toml` (as every example is), or `design-pack` for standard input.
 */
export function packFolderName(operand: string, workingFolder: string): string {
  if (operand === '-') return 'design-pack';
  const path = resolve(workingFolder, operand);
  const file = basename(path).replace(/\.[^.]*$/, '');
  const name = file === 'design' ? basename(dirname(path)) : file;
  const plain = name.replace(/\p{Cc}/gu, '-');
  return plain === '' ? 'design-pack' : `${plain}-pack`;
}
