import { realpath } from 'node:fs/promises';
import { dirname, join, resolve, sep } from 'node:path';
import { fileFailure, whyOf } from './failure.ts';
import { readStart, textOf } from './read-input.ts';
import { type Terminal, visible } from './terminal.ts';

/** Largest file that is read beside a design or a site. */
const LARGEST_BYTES = 1_000_000;

/** A file that another one names. */
export interface BesideFile {
  /** What names it, as a file name or `-`; the file lies in its folder or below, that of standard input is the working folder. */
  readonly operand: string;
  readonly name: string;
  /** For messages: `drawing` that the `design` names. */
  readonly kind: string;
  readonly owner: string;
  /** How to save it so that it is text. */
  readonly asText: string;
}

/** The text of such a file. Throws a Failure for one that cannot be read, is too large, is not text, or lies elsewhere behind a link. */
export async function readBeside(
  { operand, name, kind, owner, asText }: BesideFile,
  terminal: Terminal,
): Promise<string> {
  const { workingFolder } = terminal;
  const folder = operand === '-' ? workingFolder : dirname(resolve(workingFolder, operand));
  const shown = `the ${kind} ${visible(name)} that the ${owner} names`;
  const bytes = await readInside(folder, name).catch((error: unknown) => {
    throw fileFailure('cannot-read', `${shown} cannot be read: ${whyOf(error)}`);
  });
  if (bytes === undefined) {
    throw fileFailure(
      `${kind}-elsewhere`,
      `${shown} is a link out of the folder of the ${owner}; put the ${kind} itself there`,
    );
  }
  if (bytes.length > LARGEST_BYTES) throw fileFailure(`${kind}-too-large`, `${shown} is larger than 1 MB`);
  const text = textOf(bytes);
  if (text !== undefined) return text;
  throw fileFailure('not-text', `${shown} is not a text file in UTF-8; save it as ${asText}`);
}

/** Undefined for what links lead out of the folder. */
async function readInside(folder: string, name: string): Promise<Uint8Array | undefined> {
  const [home, path] = [await realpath(folder), await realpath(join(folder, name))];
  const inside = path.startsWith(home.endsWith(sep) ? home : `${home}${sep}`);
  return inside ? readStart(path, LARGEST_BYTES) : undefined;
}
