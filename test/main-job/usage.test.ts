import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newFolder, sheetwave, snapshot } from './command.ts';

describe('help and version', () => {
  it.each([[['--help']], [['make', '--help']], [['check', '--help']], [['link', '--help']], [['new', '--help']]])(
    '%j',
    async (args) => {
      const { code, stdout, stderr } = await sheetwave(args, { cwd: newFolder() });
      expect([code, stderr]).toEqual([0, '']);
      expect(stdout).toMatch(/Exit codes:/);
    },
  );
  it('--version', async () => {
    const { code, stdout } = await sheetwave(['--version'], { cwd: newFolder() });
    expect([code, stdout]).toEqual([0, expect.stringMatching(/^sheetwave \d+\.\d+\.\d+\n$/)]);
  });
});

describe('wrong use ends with 2 and one message', () => {
  it.each([
    [[], /say what to do/],
    [['maek', 'x.toml'], /did you mean make\?/],
    [['make'], /the design file is missing/],
    [['make', 'x.toml', '--oot', 'y'], /did you mean --out\?/],
  ])('%j', async (args, words) => {
    const cwd = newFolder();
    const { code, stdout, stderr } = await sheetwave(args, { cwd });
    expect([code, stdout, stderr.match(/^error:/gm)?.length, snapshot(cwd).size]).toEqual([2, '', 1, 0]);
    expect(stderr).toMatch(words);
  });
  it('as one object with --json', async () => {
    const { code, stdout, stderr } = await sheetwave(['mke', '--json'], { cwd: newFolder() });
    expect([code, stderr]).toEqual([2, '']);
    expect(JSON.parse(stdout)).toMatchObject({ ok: false, exitCode: 2, problem: { code: 'usage' } });
  });
});

describe('new', () => {
  it('writes a design that can be made as it stands', async () => {
    const cwd = newFolder();
    const made = await sheetwave(['new', 'orchard/mast.toml'], { cwd });
    expect([made.code, [...snapshot(cwd).keys()]]).toEqual([0, ['orchard', 'orchard/mast.toml']]);
    expect((await sheetwave(['check', 'orchard/mast.toml'], { cwd })).code).toBe(0);
  });
  it('starts from a band with a stack that can be made and sized', async () => {
    const cwd = newFolder();
    const args = ['--low', '5.15 GHz', '--high', '5.85 GHz', '--layers', '3', '--vswr', '1.5'];
    const made = await sheetwave(['new', 'mast.toml', ...args], { cwd });
    expect([made.code, made.stdout]).toEqual([0, expect.stringMatching(/then: sheetwave size mast\.toml/)]);
    const checked = await sheetwave(['check', 'mast.toml', '--json'], { cwd });
    expect(checked.code).toBe(0);
    const text = readFileSync(join(cwd, 'mast.toml'), 'utf8');
    expect(text).toMatch(/^\[free\]\nlayer\.driven\.length = /m);
    expect(text.match(/^\[\[layer\]\]$/gm)).toHaveLength(3);
  });
  it.each([
    [['--layers', '2'], /--layers needs a band; give --low and --high/],
    [['--low', '5 GHz'], /a band has two edges; give both --low and --high/],
    [['--low', '6 GHz', '--high', '5 GHz'], /--low 6 GHz --high 5 GHz is no band; --low has to be the lower one/],
    [['--low', '5', '--high', '6 GHz'], /--low 5 cannot be understood; write it like "5\.15 GHz"/],
    [['--low', '5 GHz', '--high', '6 GHz', '--layers', '4'], /--layers 4 is not known; give 1, 2 or 3/],
    [['--low', '5 GHz', '--high', '6 GHz', '--vswr', '0'], /--vswr 0 is no ratio to hope for; give 1\.01 to 20/],
  ])('%j is refused, and nothing is written', async (args, words) => {
    const cwd = newFolder();
    const refused = await sheetwave(['new', ...args], { cwd });
    expect([refused.code, snapshot(cwd).size, refused.stderr]).toEqual([2, 0, expect.stringMatching(words)]);
  });
  it('never replaces a file unasked', async () => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'design.toml'), 'mine');
    const refused = await sheetwave(['new'], { cwd });
    expect([refused.code, readFileSync(join(cwd, 'design.toml'), 'utf8')]).toEqual([3, 'mine']);
    expect(refused.stderr).toMatch(/design\.toml is there already; give another name, or --force/);
    expect((await sheetwave(['new', '--force'], { cwd })).code).toBe(0);
    expect(readFileSync(join(cwd, 'design.toml'), 'utf8')).toContain('format = 1');
    expect([...snapshot(cwd).keys()]).toEqual(['design.toml']);
  });
  it('says when it cannot write', async () => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'note'), 'x');
    const refused = await sheetwave(['new', 'note/sub/design.toml'], { cwd });
    expect([refused.code, refused.stderr]).toEqual([
      3,
      expect.stringMatching(/something on the way to it is not a folder/),
    ]);
  });
});
