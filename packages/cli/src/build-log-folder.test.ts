import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { LogEntry } from '@sheetwave/bench';
import { afterAll, expect, it } from 'vitest';
import { addEntry, keepCopy, keptBytes, openBuildLog } from './build-log-folder.ts';
import { type LogFiles, logFiles } from './log-files.ts';

// The command is ended at every call of the file system that adding an entry makes, and within every write half way and at its last byte: nothing
// that was in the log is lost, no entry speaks of a copy that is not there, and the next one can be added.

const top = mkdtempSync(join(tmpdir(), 'sheetwave-log-'));
afterAll(() => rmSync(top, { recursive: true, force: true }));

/** Nothing here waits for the disk: it is the process that ends, not the machine. */
const plain = logFiles({ waits: false });

class Killed extends Error {}

/** Dies at the call of this number, after so many bytes of what that call writes; nothing works from then on, as no dead process tidies up. */
function dyingAt(
  call: number,
  bytes: number,
): { readonly files: LogFiles; readonly done: { dead: boolean; wrote: number } } {
  let calls = 0;
  const done = { dead: false, wrote: 0 };
  const alive = (last: () => Promise<void>) => async (): Promise<void> => {
    if (!done.dead && calls++ < call) return;
    if (!done.dead) {
      done.dead = true;
      await last();
    }
    throw new Killed();
  };
  const step = async (last: () => Promise<void> = async () => undefined) => alive(last)();
  const part = (whole: Uint8Array) => {
    done.wrote = whole.length;
    return whole.subarray(0, bytes);
  };
  const files: LogFiles = {
    makeFolder: async (path) => step().then(() => plain.makeFolder(path)),
    write: async (path, whole) => step(() => plain.write(path, part(whole))).then(() => plain.write(path, whole)),
    rename: async (from, to) => step().then(() => plain.rename(from, to)),
    remove: async (path) => step().then(() => plain.remove(path)),
    size: async (path) => step().then(() => plain.size(path)),
    truncate: async (path, size) => step().then(() => plain.truncate(path, size)),
    append: async (path, whole) => step(() => plain.append(path, part(whole))).then(() => plain.append(path, whole)),
  };
  return { files, done };
}

const textOf = (what: string) => new TextEncoder().encode(`${what} of the boathouse\n`);

/** What `log add` does with its files. */
async function add(folder: string, note: string, files: LogFiles = plain): Promise<LogEntry> {
  const design = await keepCopy(folder, { kind: 'designs', bytes: textOf('design'), ending: '.toml' }, files);
  const sweep = await keepCopy(folder, { kind: 'sweeps', bytes: textOf(`sweep ${note}`), ending: '.s1p' }, files);
  const opened = await openBuildLog(folder);
  const entry = { date: '2026-05-17', design: { ...design, name: 'Heron Lock', revision: 'A' }, note };
  return addEntry(opened, { ...entry, sweep: { ...sweep, name: 'sweep.s1p' } }, files);
}

/** Notes in the log, when every copy is there and whole. */
async function notesOf(folder: string): Promise<readonly (string | undefined)[]> {
  const { log } = await openBuildLog(folder);
  for (const { design, sweep } of log.entries)
    for (const kept of [design, sweep])
      if (kept !== undefined) expect(await keptBytes(folder, kept), kept.file).toBeDefined();
  return log.entries.map(({ note }) => note);
}

/** A log that holds "first". */
const earlier = (async () => {
  const folder = mkdtempSync(join(top, 'earlier-'));
  await add(folder, 'first');
  return folder;
})();

/** Adds "second" to a log that holds "first" (with a torn tail, when asked), and dies; gives what is to be known of that death. */
async function die(call: number, bytes: number, torn: boolean) {
  const folder = mkdtempSync(join(top, 'log-'));
  cpSync(await earlier, folder, { recursive: true });
  if (torn) await plain.append(join(folder, 'log.jsonl'), new TextEncoder().encode('{"sha256":"ab'));
  const { files, done } = dyingAt(call, bytes);
  const ended = await add(folder, 'second', files).then(
    () => 'added',
    (error: unknown) => {
      if (error instanceof Killed) return 'killed';
      throw error;
    },
  );
  const notes = await notesOf(folder);
  expect([['first'], ['first', 'second']]).toContainEqual(notes);
  if (ended === 'added') expect(notes).toHaveLength(2);
  await add(folder, 'third');
  expect(await notesOf(folder)).toEqual([...notes, 'third']);
  rmSync(folder, { recursive: true });
  return { ended, wrote: done.wrote, notes };
}

it.each([false, true])(
  'a log survives being killed at any call and within any write (torn before: %s)',
  async (torn) => {
    let call = 0;
    let seen = 0;
    for (; ; call++) {
      const { ended, wrote } = await die(call, 0, torn);
      if (ended === 'added') break;
      // The last byte is the line break: there the line has become an entry.
      const places = [wrote >> 1, wrote - 1, wrote];
      for (const bytes of wrote === 0 ? [] : places) {
        const { notes } = await die(call, bytes, torn);
        if (notes.length === 2) seen++;
      }
    }
    // Of the calls: a folder, a file and a name for the new sweep (the design has its copy already), then a folder, a size, perhaps a cut, a line.
    expect(call).toBe(torn ? 7 : 6);
    // An entry is there with its line whole, line break or not.
    expect(seen).toBe(2);
  },
);

it('a full disk loses nothing, leaves nothing behind and says so', async () => {
  const folder = mkdtempSync(join(top, 'full-'));
  await add(folder, 'first');
  const before = readFileSync(join(folder, 'log.jsonl'));
  const full: LogFiles = {
    ...plain,
    write: async (path, bytes) => {
      await plain.write(path, bytes.subarray(0, 3));
      throw Object.assign(new Error('no space left on device'), { code: 'ENOSPC' });
    },
  };
  await expect(add(folder, 'second', full)).rejects.toThrow(/cannot be written: .*(space|full)/);
  expect(readFileSync(join(folder, 'log.jsonl'))).toEqual(before);
  const sum = createHash('sha256').update(textOf('sweep second')).digest('hex').slice(0, 16);
  expect(existsSync(join(folder, 'sweeps', `${sum}.s1p.writing-${process.pid}`))).toBe(false);
});
