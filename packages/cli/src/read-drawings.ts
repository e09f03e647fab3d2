import { realpath } from 'node:fs/promises';
import { dirname, join, resolve, sep } from 'node:path';
import { namedFiles } from '@sheetwave/design';
import type { Drawings } from '@sheetwave/pack';
import { fileFailure, whyOf } from './failure.ts';
import { readStart, textOf } from './read-input.ts';
import { type Terminal, visible } from './terminal.ts';

/** Largest drawing that is read. */
const LARGEST_BYTES = 1_000_000;

/**
 * The drawings that a design names, from the folder of the design (the working folder for standard input) and below it.
 * Throws a Failure for one that cannot be read, is too large, is not text, or lies elsewhere behind a link.
 */
export async function readDrawings(designText: string, operand: string, terminal: Terminal): Promise<Drawings> {
  const { workingFolder } = terminal;
  const folder = operand === '-' ? workingFolder : dirname(resolve(workingFolder, operand));
  const texts = namedFiles(designText).map(async (name) => [name, await readOne(folder, name)] as const);
  return Object.fromEntries(await Promise.all(texts));
}

async function readOne(folder: string, name: string): Promise<string> {
  const shown = `the drawing ${visible(name)} that the design names`;
  const bytes = await readInside(folder, name).catch((error: unknown) => {
    throw fileFailure('cannot-read', `${shown} cannot be read: ${whyOf(error)}`);
  });
  if (bytes === undefined) {
    throw fileFailure(
      'drawing-elsewhere',
      `${shown} is a link out of the folder of the design; put the drawing itself there`,
    );
  }
  if (bytes.length > LARGEST_BYTES) throw fileFailure('drawing-too-large', `${shown} is larger than 1 MB`);
  const text = textOf(bytes);
  if (text !== undefined) return text;
  throw fileFailure('not-text', `${shown} is not a text file in UTF-8; save it as DXF in text form or as plain SVG`);
}

/** Undefined for what links lead out of the folder. */
async function readInside(folder: string, name: string): Promise<Uint8Array | undefined> {
  const [home, path] = [await realpath(folder), await realpath(join(folder, name))];
  const inside = path.startsWith(home.endsWith(sep) ? home : `${home}${sep}`);
  return inside ? readStart(path, LARGEST_BYTES) : undefined;
}
