import { cpSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { exampleNames, exampleText, newFolder, ROOT, sheetwave, snapshot } from './command.ts';
import { designTextOf, faultsOfPack } from './whole-pack.ts';

// The main job: a design file goes in, the folder that a workshop works from comes out.

describe.each(exampleNames())('the example %s', (name) => {
  let cwd: string;
  let stdout: string;
  const pack = () => join(cwd, `${name}-pack`);

  beforeAll(async () => {
    cwd = newFolder();
    // With the drawings that lie beside the design.
    cpSync(join(ROOT, 'examples', name), join(cwd, name), { recursive: true });
    const result = await sheetwave(['make', join(name, 'design.toml')], { cwd });
    expect([result.code, result.stderr.match(/^error:.*$/gm)]).toEqual([0, null]);
    stdout = result.stdout;
  });

  it('gives a whole pack beside nothing else, and says where it is', () => {
    expect(faultsOfPack(pack())).toEqual([]);
    expect([...snapshot(cwd).keys()].filter((path) => !path.includes('/'))).toEqual([name, `${name}-pack`]);
    expect(stdout).toContain(`${name}-pack`);
  });

  it('carries the design file as it was', () => {
    expect(designTextOf(pack())).toBe(exampleText(name));
  });

  it('has the parts list, the summary for people and for programs, and pictures', () => {
    const paths = [...snapshot(pack()).keys()];
    expect(paths).toEqual(expect.arrayContaining(['parts.csv', 'summary.json', 'summary.md', 'pack.json', 'pictures']));
  });

  it('names in the parts list only files that are there', () => {
    const summary = JSON.parse(readFileSync(join(pack(), 'summary.json'), 'utf8'));
    const there = snapshot(pack());
    expect(summary.parts.length).toBeGreaterThan(1);
    for (const part of summary.parts) for (const path of part.files) expect(there.has(path), path).toBe(true);
    for (const file of summary.files) expect(there.has(file.path), file.path).toBe(true);
  });

  it('names no folder, user or day of this run in any file', () => {
    for (const [path, word] of snapshot(pack())) {
      if (word === 'folder') continue;
      const text = readFileSync(join(pack(), path), 'latin1');
      expect(text.includes(cwd), path).toBe(false);
    }
  });

  it('is the same to the byte when made again in the same place', async () => {
    const first = snapshot(pack());
    const result = await sheetwave(['make', join(name, 'design.toml')], { cwd });
    expect([result.code, result.stdout]).toEqual([0, expect.stringContaining('in place of the earlier pack')]);
    expect(snapshot(pack())).toEqual(first);
  });

  it('is the same to the byte on another machine: name, folder, home, zone, language, clock, order of files', async () => {
    const other = newFolder();
    cpSync(join(ROOT, 'examples', name), join(other, 'z'), { recursive: true });
    renameSync(join(other, 'z', 'design.toml'), join(other, 'z', 'x.toml'));
    const result = await sheetwave(['make', join(other, 'z', 'x.toml'), '--out', 'deep/er/p'], {
      cwd: other,
      before: 'umask 077',
      env: {
        ...{ TZ: 'Pacific/Chatham', LC_ALL: 'tr_TR.UTF-8', LANG: 'tr_TR.UTF-8', SOURCE_DATE_EPOCH: '1' },
        ...{ HOME: other, USER: 'heron', TMPDIR: other, COLUMNS: '20', FORCE_COLOR: '3' },
        NODE_OPTIONS: `--import ${pathToFileURL(join(ROOT, 'test', 'main-job', 'other-machine.mjs')).href}`,
      },
    });
    expect([result.code, result.stderr.match(/^error:.*$/gm)]).toEqual([0, null]);
    expect(snapshot(join(other, 'deep', 'er', 'p'))).toEqual(snapshot(pack()));
  });
});

describe('making again', () => {
  const name = 'laser-single-2g4';
  const changed = exampleText(name).replace('revision = "A"', 'revision = "B"');

  it('replaces the earlier pack whole', async () => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'mast.toml'), exampleText(name));
    await sheetwave(['make', 'mast.toml'], { cwd });
    writeFileSync(join(cwd, 'mast.toml'), changed);
    const result = await sheetwave(['make', 'mast.toml'], { cwd });
    expect([result.code, result.stdout]).toEqual([0, expect.stringContaining('in place of the earlier pack')]);
    expect(designTextOf(join(cwd, 'mast-pack'))).toBe(changed);
    expect(faultsOfPack(join(cwd, 'mast-pack'))).toEqual([]);
    expect([...snapshot(cwd).keys()].filter((path) => !path.includes('/'))).toEqual(['mast-pack', 'mast.toml']);
  });

  it('works from the text that a pack carries', async () => {
    const cwd = newFolder();
    await sheetwave(['make', '-', '--out', 'one'], { cwd, input: changed });
    await sheetwave(['make', '-', '--out', 'two'], { cwd, input: designTextOf(join(cwd, 'one')) });
    expect(snapshot(join(cwd, 'two'))).toEqual(snapshot(join(cwd, 'one')));
  });

  it('takes a pack that was moved or copied', async () => {
    const cwd = newFolder();
    await sheetwave(['make', '-', '--out', 'one'], { cwd, input: exampleText(name) });
    cpSync(join(cwd, 'one'), join(cwd, 'copy'), { recursive: true });
    const result = await sheetwave(['make', '-', '--out', 'copy'], { cwd, input: changed });
    expect([result.code, designTextOf(join(cwd, 'copy'))]).toEqual([0, changed]);
  });
});

describe('for programs', () => {
  it('make --json prints one object with every file, and nothing else', async () => {
    const cwd = newFolder();
    const args = ['make', '-', '--out', 'p', '--json'];
    const { code, stdout, stderr } = await sheetwave(args, { cwd, input: exampleText('laser-single-2g4') });
    const said = JSON.parse(stdout);
    expect([code, stderr, said.ok, said.exitCode, said.folder]).toEqual([0, '', true, 0, join(cwd, 'p')]);
    expect(stdout.trim().split('\n').length).toBe(1);
    const there = [...snapshot(join(cwd, 'p'))].filter(([, word]) => word !== 'folder').map(([path]) => path);
    expect(said.files.map((file: { path: string }) => file.path).sort()).toEqual(there.sort());
  });

  it('check --json gives the findings and writes nothing', async () => {
    const cwd = newFolder();
    const { code, stdout, stderr } = await sheetwave(['check', '-', '--json'], { cwd, input: 'format = 1\n' });
    const said = JSON.parse(stdout);
    expect([code, stderr, said.ok, said.exitCode]).toEqual([1, '', false, 1]);
    expect(said.findings.length).toBeGreaterThan(0);
    expect(snapshot(cwd).size).toBe(0);
  });
});

describe('check', () => {
  it.each(exampleNames())('finds that %s can be made, and writes nothing', async (name) => {
    const cwd = newFolder();
    const result = await sheetwave(['check', '-'], { cwd, input: exampleText(name) });
    expect([result.code, result.stderr, snapshot(cwd).size]).toEqual([0, '', 0]);
    expect(result.stdout).toMatch(/standard input can be made/);
  });
});
