import { createReadStream } from 'node:fs';
import { basename, resolve } from 'node:path';
import { createTouchstoneReader, readTouchstone, type TouchstoneFile } from '@sheetwave/bench';
import type { Finding } from '@sheetwave/design';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { Failure, fileFailure, whyOf } from './failure.ts';
import { countText, findingLines } from './report.ts';
import { visible } from './terminal.ts';

/** A sweep as it was read, and what there is to say of its file. */
export interface Sweep {
  readonly name: string;
  readonly file: TouchstoneFile;
  readonly findings: readonly Finding[];
}

/** Reads a Touchstone file in pieces, so that one of any size fills no memory. Throws a Failure, with its findings, for one that is broken. */
export async function readSweep(name: string, { terminal, say }: Context): Promise<Sweep> {
  const reader = createTouchstoneReader({ name, method: `Sweep ${basename(name)}.` });
  try {
    const stream = createReadStream(resolve(terminal.workingFolder, name), { highWaterMark: 1 << 18 });
    for await (const piece of stream) if (!reader.push(piece as Uint8Array)) break;
  } catch (error) {
    throw fileFailure('cannot-read', `${visible(name)} cannot be read: ${whyOf(error)}`);
  }
  return sound(name, reader.end(), { terminal, say });
}

/** The same of bytes that are already here. */
export function sweepOfBytes(name: string, bytes: Uint8Array, context: Pick<Context, 'terminal' | 'say'>): Sweep {
  return sound(name, readTouchstone(bytes, { name, method: `Sweep ${basename(name)}.` }), context);
}

function sound(
  name: string,
  reading: ReturnType<typeof readTouchstone>,
  { terminal, say }: Pick<Context, 'terminal' | 'say'>,
): Sweep {
  const { findings } = reading;
  say(findingLines(findings, visible(name), { output: terminal.stderr, env: terminal.env }));
  if (reading.ok) return { name, file: reading.file, findings };
  const message = `${visible(name)} cannot be used as a sweep: ${countText(findings)}`;
  throw new Failure('bad-sweep', EXIT.files, message, { findings });
}
