import { lstat, mkdir, mkdtemp, readdir, readFile, rename, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { MANIFEST_PATH, makeManifest, type PackFile } from '../manifest.ts';
import { type FolderIo, nodeFolderIo } from './folder-io.ts';
import { listTree } from './inspect-folder.ts';
import { type WriteResult, writePack } from './write-pack.ts';

let top: string;
let folder: string;
beforeEach(async () => {
  top = await mkdtemp(join(tmpdir(), 'sw-pack-'));
  folder = join(top, 'heron-pack');
});
afterEach(() => rm(top, { recursive: true, force: true }));

const encode = (text: string) => new TextEncoder().encode(text);

/** A pack of a few files, all of whose contents tell which one it is. */
function packOf(mark: string, extra: string[] = []): PackFile[] {
  const file = (path: string) => ({ path, kind: 'summary', part: undefined, bytes: encode(`${mark} ${path}`) });
  const files = ['cut/a.dxf', 'cut/deep/b.dxf', 'parts.csv', ...extra].map(file);
  const manifest = makeManifest({ toolVersion: '1', name: mark, revision: 'A', designText: mark, files });
  return [
    ...files,
    { path: MANIFEST_PATH, kind: 'manifest', part: undefined, bytes: encode(JSON.stringify(manifest)) },
  ];
}

/** Every file below a folder with its contents. */
async function contents(at: string): Promise<Record<string, string>> {
  const paths = await listTree(nodeFolderIo, at);
  const pairs = paths.map(async (path) => [path, await contentOf(join(at, path))]);
  return Object.fromEntries(await Promise.all(pairs));
}
/** A folder or a link has no text of its own. */
const contentOf = async (path: string) => ((await lstat(path)).isFile() ? readFile(path, 'utf8') : 'not a file');
const asContents = (files: PackFile[]) =>
  Object.fromEntries(files.map((file) => [file.path, new TextDecoder().decode(file.bytes)]));

const problemOf = (result: WriteResult) => (result.written ? undefined : result.problem);

describe('writing a pack', () => {
  it('makes the folders above it and leaves nothing beside it', async () => {
    folder = join(top, 'a', 'b', 'pack');
    expect(await writePack({ folder, files: packOf('one') })).toMatchObject({ written: true, replaced: false });
    expect(await contents(folder)).toEqual(asContents(packOf('one')));
    expect(await readdir(join(top, 'a', 'b'))).toEqual(['pack']);
  });

  it('replaces an earlier pack whole: a file of the old one that the new one lacks is gone', async () => {
    await writePack({ folder, files: packOf('one', ['copper/old.gbr']) });
    expect(await writePack({ folder, files: packOf('two') })).toMatchObject({ replaced: true, leftBehind: [] });
    expect(await contents(folder)).toEqual(asContents(packOf('two')));
    expect(await readdir(top)).toEqual(['heron-pack']);
  });

  it('goes into an empty folder', async () => {
    await mkdir(folder);
    expect(await writePack({ folder, files: packOf('one') })).toMatchObject({ written: true, replaced: false });
    expect(await readdir(top)).toEqual(['heron-pack']);
  });

  it('does not mind what file browsers leave', async () => {
    await writePack({ folder, files: packOf('one') });
    await writeFile(join(folder, 'cut', '.DS_Store'), 'x');
    expect(await writePack({ folder, files: packOf('two') })).toMatchObject({ replaced: true, leftBehind: [] });
    expect(await contents(folder)).toEqual(asContents(packOf('two')));
  });
});

describe('what is not ours is left alone', () => {
  const refused = async (code: string, words: RegExp) => {
    const before = await contents(top);
    const problem = problemOf(await writePack({ folder, files: packOf('two') }));
    expect(problem?.code).toBe(code);
    expect(`${problem?.path} ${problem?.why}; ${problem?.remedy}`).toMatch(words);
    expect(await contents(top)).toEqual(before);
  };

  it('a folder with files that is not a pack', async () => {
    await mkdir(folder);
    await writeFile(join(folder, 'thesis.txt'), 'x');
    await refused('not-a-pack', /heron-pack holds files, but is not a build pack/);
  });
  it('a folder whose pack.json is another program’s', async () => {
    await mkdir(folder);
    await writeFile(join(folder, MANIFEST_PATH), '{"name":"things"}');
    await refused('not-a-pack', /pack\.json/);
  });
  it('a file', async () => {
    await writeFile(folder, 'x');
    await refused('not-a-folder', /is a file/);
  });
  it('a link, even one to an empty folder', async () => {
    await mkdir(join(top, 'elsewhere'));
    await symlink(join(top, 'elsewhere'), folder);
    await refused('not-a-folder', /is a link/);
  });
  it('a way that leads through a file', async () => {
    await writeFile(join(top, 'note'), 'x');
    folder = join(top, 'note', 'sub', 'pack');
    await refused('not-a-folder', /something on the way/);
  });
  it('files added to an earlier pack, by name', async () => {
    await writePack({ folder, files: packOf('one') });
    await writeFile(join(folder, 'cut', 'my note.txt'), 'mine');
    await refused('files-of-yours', /not of the pack: cut\/my note\.txt; move them/);
  });
  it('files of an earlier pack that were changed, by name', async () => {
    await writePack({ folder, files: packOf('one') });
    await writeFile(join(folder, 'parts.csv'), 'with prices');
    await refused('files-of-yours', /changed since the pack was made: parts\.csv/);
  });
  it('a link put into an earlier pack', async () => {
    await writePack({ folder, files: packOf('one') });
    await rm(join(folder, 'cut'), { recursive: true });
    await mkdir(join(top, 'mine'));
    await writeFile(join(top, 'mine', 'a.dxf'), 'mine');
    await symlink(join(top, 'mine'), join(folder, 'cut'));
    await refused('files-of-yours', /cut/);
  });
  it('the folder the user stands in, and those above', async () => {
    for (const workingFolder of [folder, join(folder, 'cut', 'deep')]) {
      const result = await writePack({ folder, files: packOf('one'), workingFolder });
      expect(problemOf(result)?.code).toBe('working-folder');
    }
    expect(await readdir(top)).toEqual([]);
    const beside = await writePack({ folder, files: packOf('one'), workingFolder: `${folder}-2` });
    expect(beside.written).toBe(true);
  });
  it('a file that appears at the very moment of the swap stays, and is told of', async () => {
    await writePack({ folder, files: packOf('one') });
    const io: FolderIo = {
      ...nodeFolderIo,
      rename: async (from, to) => {
        if (from === folder) await writeFile(join(folder, 'cut', 'late.txt'), 'mine');
        await rename(from, to);
      },
    };
    const result = await writePack({ folder, files: packOf('two'), io });
    expect(await contents(folder)).toEqual(asContents(packOf('two')));
    const left = result.written ? (result.leftBehind[0] ?? '') : '';
    expect(await readFile(join(left, 'cut', 'late.txt'), 'utf8')).toBe('mine');
  });
});

type Call = (...args: never[]) => unknown;

/** The system's files, but calls number `from` to `to` (from 1) fail as a full disk does; a write leaves half a file. */
function failing(from: number, to: number): { io: FolderIo; calls: () => number } {
  let count = 0;
  const wrap = (name: string, call: Call) => async (path: string, bytes?: unknown) => {
    count += 1;
    if (count < from || count > to) return call(...([path, bytes] as never[]));
    if (name === 'writeNew') await writeFile(path, (bytes as Uint8Array).slice(0, 3));
    throw Object.assign(new Error('no space left'), { code: 'ENOSPC' });
  };
  const entries = Object.entries(nodeFolderIo).map(([name, call]) => [name, wrap(name, call as Call)]);
  return { io: { ...Object.fromEntries(entries), isRunning: nodeFolderIo.isRunning } as FolderIo, calls: () => count };
}

async function callsOf(start: () => Promise<void>): Promise<number> {
  await start();
  const { io, calls } = failing(Infinity, Infinity);
  await writePack({ folder, files: packOf('two'), io });
  await rm(folder, { recursive: true });
  return calls();
}

const EARLIER = {
  'with an earlier pack': async () => void (await writePack({ folder, files: packOf('one') })),
  'with an empty folder': async () => void (await mkdir(folder, { recursive: true })),
  'with nothing there': async () => undefined,
};

it('a disk that fails on the way to a deep folder leaves none of the folders above it', async () => {
  const { io, calls } = failing(8, 8);
  expect((await writePack({ folder: join(top, 'a', 'b', 'c', 'pack'), files: packOf('two'), io })).written).toBe(false);
  expect([calls() > 8, await readdir(top)]).toEqual([true, []]);
});

describe.each(Object.entries(EARLIER))('a disk that fails at any call, %s', (_name, start) => {
  it('once: the earlier state or the new pack, whole, and nothing beside it', async () => {
    const total = await callsOf(start);
    expect(total).toBeGreaterThan(15);
    for (let k = 1; k <= total; k += 1) {
      folder = join(top, `once-${k}`, 'pack');
      await mkdir(join(folder, '..'));
      await start();
      const before = await contents(join(folder, '..'));
      const result = await writePack({ folder, files: packOf('two'), io: failing(k, k).io });
      if (result.written) {
        expect(await contents(folder)).toEqual(asContents(packOf('two')));
        for (const left of result.leftBehind) await rm(left, { recursive: true });
      } else {
        expect(problemOf(result)?.code).toBe('disk-full');
        expect(await contents(join(folder, '..'))).toEqual(before);
      }
      expect((await readdir(join(folder, '..'))).filter((name) => name !== 'pack')).toEqual([]);
    }
  });

  it('from then on: a whole pack is there or comes back at the next run, which tidies up', async () => {
    const total = await callsOf(start);
    for (let k = 1; k <= total; k += 1) {
      folder = join(top, `ever-${k}`, 'pack');
      await mkdir(join(folder, '..'));
      await start();
      const before = await contents(join(folder, '..'));
      const broken = await writePack({ folder, files: packOf('two'), io: failing(k, Infinity).io });
      await recoverByRefusedRun();
      const after = await contents(join(folder, '..'));
      expect([before, prefixed('pack/', asContents(packOf('two')))]).toContainEqual(after);
      if (broken.written) expect(after).not.toEqual(before);
    }
  });
});

const prefixed = (prefix: string, files: Record<string, string>) =>
  Object.fromEntries(Object.entries(files).map(([path, text]) => [prefix + path, text]));

/** A run that recovers and then is interrupted before it builds. */
async function recoverByRefusedRun(): Promise<void> {
  const stop = new AbortController();
  stop.abort();
  expect(problemOf(await writePack({ folder, files: packOf('three'), signal: stop.signal }))?.code).toBe('interrupted');
}

describe('after a kill', () => {
  const hidden = (role: string, processId: number) => join(top, `.heron-pack.${role}-${processId}-1`);
  /** No process has this number: above the largest that Linux gives (2^22). */
  const ENDED = 99_999_999;

  it('between the two renames, the earlier pack comes back first', async () => {
    await writePack({ folder, files: packOf('one') });
    await rename(folder, hidden('previous', ENDED));
    await mkdir(hidden('building', ENDED));
    await recoverByRefusedRun();
    expect(await contents(top)).toEqual(prefixed('heron-pack/', asContents(packOf('one'))));
    expect(await readdir(top)).toEqual(['heron-pack']);
  });

  it('while the old pack was removed, the rest of it goes', async () => {
    await writePack({ folder, files: packOf('one') });
    await rename(folder, hidden('discard', ENDED));
    await rm(join(hidden('discard', ENDED), 'cut', 'a.dxf'));
    await writePack({ folder, files: packOf('two') });
    expect(await readdir(top)).toEqual(['heron-pack']);
  });

  it('a later process with the same number cleans up as well, even under the very name that it will use itself', async () => {
    const named: string[] = [];
    const makeFolder = async (path: string) => {
      named.push(path);
      await nodeFolderIo.makeFolder(path);
    };
    await writePack({ folder, files: packOf('one'), io: { ...nodeFolderIo, makeFolder } });
    const run = Number(/-(\d+)$/.exec(named[0] ?? '')?.[1]);
    for (const number of [run + 1, run + 1000]) {
      const left = hidden('building', process.pid).replace(/-1$/, `-${number}`);
      await mkdir(left);
      await writeFile(join(left, 'half.dxf'), 'x');
    }
    expect(await writePack({ folder, files: packOf('two') })).toMatchObject({ written: true });
    expect(await contents(top)).toEqual(prefixed('heron-pack/', asContents(packOf('two'))));
    expect(await readdir(top)).toEqual(['heron-pack']);
  });

  it('what a running process builds is left to it', async () => {
    await mkdir(hidden('building', process.ppid));
    await writePack({ folder, files: packOf('one') });
    expect((await readdir(top)).length).toBe(2);
  });
});

describe('an interruption', () => {
  it('at any call before the swap leaves the earlier pack; from the swap on the new one is finished', async () => {
    await writePack({ folder, files: packOf('one') });
    let outcomes = '';
    for (let k = 1; k <= 60; k += 1) {
      const stop = new AbortController();
      const counted = failing(Infinity, Infinity);
      const io = new Proxy(counted.io, {
        get: (target, name) => {
          if (counted.calls() >= k) stop.abort();
          return Reflect.get(target, name);
        },
      });
      const result = await writePack({ folder, files: packOf('two'), io, signal: stop.signal });
      outcomes += result.written ? 'n' : 'o';
      expect(await contents(top)).toEqual(prefixed('heron-pack/', asContents(packOf(result.written ? 'two' : 'one'))));
      if (result.written) await writePack({ folder, files: packOf('one') });
    }
    expect(outcomes).toMatch(/^o+n+$/);
  });
});

describe('two runs at once into one folder', () => {
  it('leave one whole pack, and at most one of them is told to try again', async () => {
    for (let round = 0; round < 20; round += 1) {
      const results = await Promise.all(['two', 'three'].map((mark) => writePack({ folder, files: packOf(mark) })));
      expect(results.filter((result) => result.written).length).toBeGreaterThan(0);
      for (const result of results) if (!result.written) expect(result.problem.code).toBe('busy');
      expect([asContents(packOf('two')), asContents(packOf('three'))]).toContainEqual(await contents(folder));
    }
    await writePack({ folder, files: packOf('four') });
    expect(await readdir(top)).toEqual(['heron-pack']);
  });
});
