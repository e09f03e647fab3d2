import { createHash } from 'node:crypto';
import { basename, dirname, extname, join, resolve } from 'node:path';
import { addToLog, type BuildLog, type Digest, type LogEntry, readBuildLog } from '@sheetwave/bench';
import { fileFailure, systemCode, whyOf } from './failure.ts';
import { type LogFiles, nodeLogFiles } from './log-files.ts';
import { readStart } from './read-input.ts';
import { visible } from './terminal.ts';

/** Largest log and largest copy in it that are read. */
const LARGEST_BYTES = 64_000_000;
const LOG_FILE = 'log.jsonl';

const sha256 = (data: string | Uint8Array): string => createHash('sha256').update(data).digest('hex');
const digest: Digest = sha256;

/** Folder of the log, beside the design: `build-log` for a `design.toml` that has its folder to itself, or `panel-build-log`. */
export function buildLogFolder(operand: string, workingFolder: string): string {
  const path = resolve(workingFolder, operand);
  const name = basename(path, extname(path));
  return join(dirname(path), name === 'design' ? 'build-log' : `${name}-build-log`);
}

export interface OpenLog {
  readonly folder: string;
  readonly log: BuildLog;
  /** Size of the file when it was read; 0 for a log that does not exist yet. */
  readonly bytes: number;
}

/** Reads the log of a folder; an empty one where there is none yet. Throws a Failure when it cannot be read. */
export async function openBuildLog(folder: string): Promise<OpenLog> {
  const bytes = await readKept(folder, LOG_FILE).catch((error: unknown) => {
    if (systemCode(error) === 'ENOENT') return new Uint8Array();
    throw fileFailure('cannot-read', `${visible(join(folder, LOG_FILE))} cannot be read: ${whyOf(error)}`);
  });
  return { folder, log: readBuildLog(bytes, digest), bytes: bytes.length };
}

async function readKept(folder: string, file: string): Promise<Uint8Array> {
  const bytes = await readStart(join(folder, file), LARGEST_BYTES);
  if (bytes.length > LARGEST_BYTES)
    throw fileFailure('file-too-large', `${visible(join(folder, file))} is larger than 64 MB`);
  return bytes;
}

/** A copy that the log keeps; undefined when it is gone or is no longer what was kept. */
export async function keptBytes(
  folder: string,
  kept: { readonly file: string; readonly sha256: string },
): Promise<Uint8Array | undefined> {
  const bytes = await readKept(folder, kept.file).catch(() => undefined);
  return bytes !== undefined && sha256(bytes) === kept.sha256 ? bytes : undefined;
}

/** What is to be kept with an entry. */
export interface NewCopy {
  readonly kind: 'designs' | 'sweeps';
  readonly bytes: Uint8Array;
  /** With its point. */
  readonly ending: string;
}

/** Copies first, each whole or not at all, so that an entry never speaks of a copy that is not there. */
export async function keepCopy(
  folder: string,
  { kind, bytes, ending }: NewCopy,
  files: LogFiles = nodeLogFiles,
): Promise<{ file: string; sha256: string }> {
  const sum = sha256(bytes);
  const kept = { file: `${kind}/${sum.slice(0, 16)}${ending}`, sha256: sum };
  if ((await keptBytes(folder, kept)) !== undefined) return kept;
  const path = join(folder, kept.file);
  const aside = `${path}.writing-${process.pid}`;
  try {
    await files.makeFolder(dirname(path));
    await files.write(aside, bytes);
    await files.rename(aside, path);
    return kept;
  } catch (error) {
    await files.remove(aside).catch(() => undefined);
    throw fileFailure('cannot-write', `${visible(path)} cannot be written: ${whyOf(error)}`);
  }
}

/** Adds an entry: cuts a torn tail off, then writes one line. */
export async function addEntry(
  { folder, log, bytes }: OpenLog,
  entry: Omit<LogEntry, 'number'>,
  files: LogFiles = nodeLogFiles,
): Promise<LogEntry> {
  const addition = addToLog(log, entry, digest);
  const path = join(folder, LOG_FILE);
  try {
    await files.makeFolder(folder);
    if ((await files.size(path)) !== bytes) {
      throw fileFailure(
        'log-changed',
        `${visible(path)} was changed by someone else meanwhile; nothing was added, try again`,
      );
    }
    if (addition.keepBytes < bytes) await files.truncate(path, addition.keepBytes);
    await files.append(path, new TextEncoder().encode(addition.text));
  } catch (error) {
    if (systemCode(error) === '') throw error;
    throw fileFailure('cannot-write', `${visible(path)} cannot be written: ${whyOf(error)}`);
  }
  return addition.entry;
}
