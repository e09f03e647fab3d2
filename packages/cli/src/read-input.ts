import { open } from 'node:fs/promises';
import { resolve } from 'node:path';
import { fileFailure, whyOf } from './failure.ts';
import { type Terminal, visible } from './terminal.ts';

/** Largest design file that is read: far more than any design needs, little enough to read in a blink. */
export const LARGEST_DESIGN_BYTES = 1_000_000;

/** The text of a design or site file, or of standard input for `-`. Throws a Failure when it cannot be read as text. */
export async function readDesignText(
  operand: string,
  terminal: Terminal,
  what: 'design' | 'site' = 'design',
): Promise<string> {
  const name = nameOfInput(operand);
  const bytes = operand === '-' ? await terminal.readStdin() : await readFile(operand, terminal);
  if (bytes.length > LARGEST_DESIGN_BYTES) {
    const limit = `${LARGEST_DESIGN_BYTES / 1_000_000} MB`;
    throw fileFailure(`${what}-too-large`, `${name} is larger than ${limit} and cannot be a ${what} file`);
  }
  const text = textOf(bytes);
  if (text !== undefined) return text;
  throw fileFailure('not-text', `${name} is not a text file in UTF-8; a ${what} file is TOML text`);
}

/** What messages call the input. */
export function nameOfInput(operand: string): string {
  return operand === '-' ? 'standard input' : visible(operand);
}

async function readFile(operand: string, terminal: Terminal): Promise<Uint8Array> {
  try {
    return await readStart(resolve(terminal.workingFolder, operand), LARGEST_DESIGN_BYTES);
  } catch (error) {
    throw fileFailure('cannot-read', `${visible(operand)} cannot be read: ${whyOf(error)}`);
  }
}

/** The bytes of a file, refused above a size. Throws a Failure. */
export async function readBytes(name: string, terminal: Terminal, mostBytes: number): Promise<Uint8Array> {
  const bytes = await readStart(resolve(terminal.workingFolder, name), mostBytes).catch((error: unknown) => {
    throw fileFailure('cannot-read', `${visible(name)} cannot be read: ${whyOf(error)}`);
  });
  if (bytes.length > mostBytes) {
    throw fileFailure('file-too-large', `${visible(name)} is larger than ${mostBytes / 1_000_000} MB`);
  }
  return bytes;
}

/** At most one byte more than allowed, so that a disk image given by mistake does not fill the memory. */
export async function readStart(path: string, mostBytes: number): Promise<Uint8Array> {
  const handle = await open(path, 'r');
  try {
    // A pipe has no size, and a file may grow while it is read.
    let buffer = new Uint8Array(Math.min(mostBytes, Math.max((await handle.stat()).size, FIRST_BYTES)) + 1);
    let length = 0;
    for (;;) {
      const { bytesRead } = await handle.read(buffer, length, buffer.length - length, null);
      length += bytesRead;
      if (bytesRead === 0 || length > mostBytes) return buffer.subarray(0, length);
      if (length === buffer.length) buffer = grown(buffer, mostBytes + 1);
    }
  } finally {
    await handle.close();
  }
}

const FIRST_BYTES = 65_536;

function grown(bytes: Uint8Array, most: number): Uint8Array<ArrayBuffer> {
  const larger = new Uint8Array(Math.min(most, 2 * bytes.length));
  larger.set(bytes);
  return larger;
}

/** Bytes as text, or undefined when they are not UTF-8 or hold a zero. */
export function textOf(bytes: Uint8Array): string | undefined {
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return text.includes('\0') ? undefined : text;
  } catch {
    return undefined;
  }
}
