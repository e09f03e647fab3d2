import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exampleText, type How, newFolder, sheetwave, snapshot } from './command.ts';
import { faultsOfPack } from './whole-pack.ts';

// Files that cannot be read, and folders that cannot or must not be written: exit code 3, one message, nothing lost.

const DESIGN = exampleText('laser-single-2g4');
/** Root may read and write anything, so what permissions forbid is tried as another user. */
const otherUser = process.getuid?.() === 0 ? { uid: 65534 } : {};

async function refused(args: readonly string[], how: How & { top?: string }, words: RegExp): Promise<void> {
  const top = how.top ?? how.cwd;
  const before = snapshot(top);
  const { code, stdout, stderr } = await sheetwave(args, { input: DESIGN, ...how });
  expect([code, stdout, snapshot(top)], stderr).toEqual([3, '', before]);
  const said = stderr.split('\n').filter((line) => line.startsWith('error: '));
  expect(said.length, stderr).toBe(1);
  expect(said[0]).toMatch(words);
  expect(stderr, 'no trace of the inside').not.toMatch(/^\s+at /m);
}

describe('a design file', () => {
  it('that is not there', async () => {
    await refused(['make', 'gone.toml'], { cwd: newFolder() }, /gone\.toml cannot be read: there is no such file/);
  });
  it('whose name could move the cursor', async () => {
    await refused(['check', 'a\u001b[2J.toml'], { cwd: newFolder() }, /a\\u\{1b\}\[2J\.toml cannot be read/);
  });
  it('that is a folder', async () => {
    const cwd = newFolder();
    mkdirSync(join(cwd, 'design.toml'));
    await refused(['make', 'design.toml'], { cwd }, /design\.toml cannot be read: it is a folder/);
  });
  it('that may not be read', async () => {
    const cwd = newFolder();
    chmodSync(cwd, 0o777);
    writeFileSync(join(cwd, 'design.toml'), DESIGN);
    chmodSync(join(cwd, 'design.toml'), 0o000);
    await refused(['make', 'design.toml'], { cwd, ...otherUser }, /design\.toml cannot be read: you may not open it/);
  });
  it('below a file', async () => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'note'), '');
    await refused(['make', 'note/design.toml'], { cwd }, /something on the way to it is not a folder/);
  });
});

describe('a pack folder', () => {
  it('that holds files and is not a pack', async () => {
    const cwd = newFolder();
    mkdirSync(join(cwd, 'p'));
    writeFileSync(join(cwd, 'p', 'photo.jpg'), 'x');
    await refused(['make', '-', '--out', 'p'], { cwd }, /p holds files, but is not a build pack/);
  });
  it('that is a file', async () => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'p'), 'x');
    await refused(['make', '-', '--out', 'p'], { cwd }, /p is a file/);
  });
  it('that is a link', async () => {
    const cwd = newFolder();
    mkdirSync(join(cwd, 'elsewhere'));
    symlinkSync('elsewhere', join(cwd, 'p'));
    await refused(['make', '-', '--out', 'p/'], { cwd }, /p\/ is a link/);
  });
  it('that is a link to nothing', async () => {
    const cwd = newFolder();
    symlinkSync('nowhere', join(cwd, 'p'));
    await refused(['make', '-', '--out', 'p'], { cwd }, /p is a link/);
  });
  it('below a file', async () => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'note'), 'x');
    await refused(['make', '-', '--out', 'note/deep/p'], { cwd }, /something on the way to it is not a folder/);
  });
  it('that is the current folder', async () => {
    await refused(['make', '-', '--out', '.'], { cwd: newFolder() }, /is the folder you are working in/);
  });
  it('in a folder that may not be written', async () => {
    const top = newFolder();
    mkdirSync(join(top, 'shut'));
    chmodSync(top, 0o755);
    chmodSync(join(top, 'shut'), 0o555);
    await refused(['make', '-', '--out', 'shut/p'], { cwd: top, ...otherUser }, /shut\/p may not be written by you/);
  });
  it('with a name that is too long', async () => {
    await refused(['make', '-', '--out', 'x'.repeat(300)], { cwd: newFolder() }, /too long/);
  });
  it('that is a pack with files of the user’s in it: they are named and kept', async () => {
    const cwd = newFolder();
    await sheetwave(['make', '-', '--out', 'p'], { cwd, input: DESIGN });
    writeFileSync(join(cwd, 'p', 'cut', 'my offcuts.txt'), 'mine');
    await refused(['make', '-', '--out', 'p'], { cwd }, /files that are not of the pack: cut\/my offcuts\.txt/);
  });
  it('that is a pack with a file that the user changed', async () => {
    const cwd = newFolder();
    await sheetwave(['make', '-', '--out', 'p'], { cwd, input: DESIGN });
    writeFileSync(join(cwd, 'p', 'parts.csv'), 'with prices');
    await refused(['make', '-', '--out', 'p'], { cwd }, /changed since the pack was made: parts\.csv/);
  });
});

/** Ways to a disk that fills up while a pack is written. A limit on file sizes works for every user of any Unix. */
function fullDisks(): [string, (cwd: string) => Partial<How>][] {
  const limited = { before: 'ulimit -f 8; trap "" XFSZ' };
  const own = ['unshare', '--user', '--map-root-user', '--mount'];
  const canMount = spawnSync(own[0] ?? '', [...own.slice(1), 'mount', '-t', 'tmpfs', 'tmpfs', '/mnt']).status === 0;
  const mounted = (cwd: string) => ({ under: own, before: `mount -t tmpfs -o size=64k tmpfs '${cwd}/small'` });
  return [['a limit on file sizes', () => limited], ...(canMount ? [['a disk of 64 kB', mounted] as const] : [])] as [
    string,
    (cwd: string) => Partial<How>,
  ][];
}

describe.each(fullDisks())('a full disk, by %s', (_name, how) => {
  it('leaves nothing half written', async () => {
    const cwd = newFolder();
    mkdirSync(join(cwd, 'small'));
    await refused(['make', '-', '--out', 'small/p'], { cwd, ...how(cwd) }, /small\/p does not fit/);
  });
});

it('a full disk leaves the earlier pack as it was', async () => {
  const cwd = newFolder();
  await sheetwave(['make', '-', '--out', 'p'], { cwd, input: DESIGN });
  const changed = DESIGN.replace('revision = "A"', 'revision = "B"');
  const how = { cwd, input: changed, before: 'ulimit -f 8; trap "" XFSZ' };
  await refused(['make', '-', '--out', 'p'], how, /p does not fit/);
  expect(faultsOfPack(join(cwd, 'p'))).toEqual([]);
});
