import { appendFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { writeTouchstone } from '@sheetwave/bench';
import {
  complex,
  multiply,
  onePortResponse,
  polar,
  type Response,
  reciprocal,
  scale,
  sweepFrequencies,
} from '@sheetwave/rf';
import { afterAll, describe, expect, it } from 'vitest';
import { run } from './run.ts';
import type { Terminal } from './terminal.ts';

const made: string[] = [];
afterAll(() => {
  for (const folder of made) rmSync(folder, { recursive: true, force: true });
});

function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'sheetwave-bench-'));
  made.push(folder);
  return folder;
}

const exampleText = (name: string) =>
  readFileSync(new URL(`../../../examples/${name}/design.toml`, import.meta.url), 'utf8');

/** Files below a folder with their contents. */
const snapshot = (folder: string) =>
  new Map(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .map((path) => [relative(folder, path), readFileSync(path, 'utf8')] as const)
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );

/** The command in this process, with a terminal of its own. */
async function sheetwave(args: readonly string[], { cwd }: { readonly cwd: string }) {
  const [stdout, stderr]: [string[], string[]] = [[], []];
  const terminal: Terminal = {
    stdout: { isTerminal: false, write: (text) => void stdout.push(text) },
    stderr: { isTerminal: false, write: (text) => void stderr.push(text) },
    readStdin: async () => new Uint8Array(),
    env: { XDG_CACHE_HOME: join(cwd, 'cache') },
    workingFolder: cwd,
    interruptible: async (work) => ({ value: await work(new AbortController().signal), by: undefined }),
  };
  const code = await run(args, terminal, '0.0.0');
  return { code, stdout: stdout.join(''), stderr: stderr.join('') };
}

/*
 * A matched resonator stands for the antenna: Z = 50 ohm/(1 + jQ(f/f0 - f0/f)), so that frequency and width are known. VSWR 2 is reached
 * f0/(Q sqrt(2)) apart (Carver and Mink 1981; memory).
 */
function sweep(centreHz: number, { delayS = 0, open = false } = {}): Response {
  const plain = onePortResponse({
    origin: 'measurement',
    method: 'Made up.',
    error: { origin: 'None.' },
    freqHz: sweepFrequencies(4.8e9, 6.2e9, 281),
    referenceOhm: 50,
    impedance: (f) => scale(reciprocal(complex(1, 30 * (f / centreHz - centreHz / f))), 50),
  });
  const s = plain.s.map((m, i) => {
    const turn = polar(1, -4 * Math.PI * (plain.freqHz[i] ?? 0) * delayS);
    return [[multiply(open ? complex(1) : (m[0]?.[0] ?? complex(0)), turn)]];
  });
  return { ...plain, s };
}

/** A folder with an etched design, for which there is an estimate, and sweeps. */
function bench(): string {
  const cwd = newFolder();
  writeFileSync(join(cwd, 'panel.toml'), exampleText('etched-2x2-5g5'));
  writeFileSync(join(cwd, 'first.s1p'), writeTouchstone(sweep(5.42e9), { unit: 'MHz', format: 'DB' }));
  writeFileSync(join(cwd, 'second.s1p'), writeTouchstone(sweep(5.48e9)));
  return cwd;
}

describe('compare', () => {
  it('prints and gives as one object where the antenna resonates', async () => {
    const cwd = bench();
    const { code, stdout, stderr } = await sheetwave(['compare', 'panel.toml', 'first.s1p', '--plots', 'plots'], {
      cwd,
    });
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/least reflection +5\.4200 GHz/);
    expect(stdout).toMatch(/^The target is missed/m);
    expect([...snapshot(cwd).keys()].filter((name) => name.startsWith('plots/'))).toEqual([
      'plots/impedance.svg',
      'plots/reflection.svg',
      'plots/smith.svg',
      'plots/vswr.svg',
    ]);
    const again = await sheetwave(['compare', 'panel.toml', 'first.s1p', '--plots', 'plots', '--json'], { cwd });
    expect([again.code, JSON.parse(again.stdout).problem.code]).toEqual([3, 'file-exists']);
    const { comparison } = JSON.parse(
      (await sheetwave(['compare', 'panel.toml', 'first.s1p', '--json'], { cwd })).stdout,
    );
    // 5.42 GHz/(30 sqrt(2)) = 127.8 MHz.
    expect(comparison.measured.atTwo.widthHz / 1e6).toBeCloseTo(127.8, 0);
    expect(comparison.predicted.origin).toBe('estimate');
  });

  it('takes a cable out by a sweep of its open end', async () => {
    const cwd = bench();
    writeFileSync(join(cwd, 'behind.s1p'), writeTouchstone(sweep(5.42e9, { delayS: 1.5e-9 })));
    writeFileSync(join(cwd, 'open.s1p'), writeTouchstone(sweep(5.42e9, { delayS: 1.5e-9, open: true })));
    const raw = await sheetwave(['compare', 'panel.toml', 'behind.s1p'], { cwd });
    expect(raw.stderr).toMatch(/^warning: behind\.s1p: a delay of about 1\.\d+ ns is still in the sweep/);
    expect(raw.stdout).not.toMatch(/highest resistance/);
    const { stdout, stderr } = await sheetwave(['compare', 'panel.toml', 'behind.s1p', '--cable-open', 'open.s1p'], {
      cwd,
    });
    expect(stderr).toBe('');
    expect(stdout).toMatch(/Cable taken out: 1\.500 ns/);
    expect(stdout).toMatch(/highest resistance +5\.4200 GHz/);
  });

  it('takes a prediction from a file, and says when there is none in it', async () => {
    const cwd = bench();
    const prediction = { ...sweep(5.45e9), origin: 'prediction', error: { frequency: 0.01, origin: 'Two grids.' } };
    writeFileSync(join(cwd, 'prediction.json'), JSON.stringify({ prediction: { response: prediction } }));
    const { stdout } = await sheetwave(['compare', 'panel.toml', 'first.s1p', '--prediction', 'prediction.json'], {
      cwd,
    });
    expect(stdout).toMatch(
      /5\.420 GHz where 5\.450 GHz was predicted: 30 MHz \(0\.6 %\) too low, within the stated error of 5[45] MHz/,
    );
    const none = await sheetwave(['compare', 'panel.toml', 'first.s1p', '--prediction', 'panel.toml'], { cwd });
    expect([none.code, none.stderr]).toEqual([3, expect.stringMatching(/panel\.toml holds no prediction/)]);
  });

  it.each([
    [
      'broken.s1p',
      '# MHz S RI R 50\n5400 0 0\n5300 0 0\n',
      3,
      /broken\.s1p:3: 5300 is below the frequency of the row before/,
    ],
    ['picture.s1p', '\u0089PNG\u0000\u0001', 3, /picture\.s1p:1: bytes that no text has/],
    [
      'two.s1p',
      '# MHz S RI R 50\n5400 0 0 0 0 0 0 0 0\n',
      3,
      /two\.s1p:2: 9 numbers at the first frequency make 2 ports/,
    ],
    ['nan.s1p', '# MHz S RI R 50\n5400 NaN 0\n', 3, /nan\.s1p:2:6: NaN is no measured value/],
    [
      'beside.s1p',
      '# MHz S RI R 50\n2400 0.5 0\n2500 0.5 0\n',
      1,
      /a sweep of 2\.400 GHz to 2\.500 GHz has nothing in the band of the design/,
    ],
  ])('says what is wrong with %s and writes nothing', async (name, text, exit, words) => {
    const cwd = bench();
    writeFileSync(join(cwd, name), text);
    const { code, stderr } = await sheetwave(['compare', 'panel.toml', name, '--plots', 'p'], { cwd });
    expect(code).toBe(exit);
    expect(stderr).toMatch(words);
    expect(snapshot(cwd).size).toBe(4);
  });
});

describe('gain', () => {
  const args = ['gain', 'panel.toml', 'substitution', '--known-level', '-42 dBm', '--known-gain', '10 dBi'];

  it('is worked out from levels typed in and from a sweep of two ports', async () => {
    const cwd = bench();
    writeFileSync(join(cwd, 'through.s2p'), '# GHz S DB R 50\n5 -9 0 -40 0 -40 0 -9 0\n6 -9 0 -40 0 -40 0 -9 0\n');
    for (const level of ['-40 dBm', 'through.s2p']) {
      const { code, stdout } = await sheetwave([...args, '--level', level, '--distance', '8 m', '--json'], { cwd });
      const { gain, warnings } = JSON.parse(stdout);
      // 10 dBi and 2 dB more; the antenna was not swept, so that its mismatch stays in.
      expect([code, gain.gainDbi.toFixed(6), warnings.length]).toEqual([0, '12.000000', 1]);
    }
  });

  it('says which number is missing, stray or out of reach', async () => {
    const cwd = bench();
    const refused = async (more: string[], words: RegExp) => {
      const { code, stderr } = await sheetwave([...args, ...more], { cwd });
      expect([code, stderr]).toEqual([2, expect.stringMatching(words)]);
    };
    await refused(['--distance', '8 m'], /substitution needs --level/);
    await refused(
      ['--level', '-40', '--distance', '8 m'],
      /--level -40 cannot be understood; write it like "-42\.5 dBm"/,
    );
    await refused(['--level', '-40 dB', '--distance', '0 m'], /--distance "?0 m"? cannot be understood/);
    await refused(['--level', '-40 dB', '--distance', '8 m', '--sent', '1 dBm'], /--sent says nothing to the method/);
    await refused(['--level', 'first.s1p', '--distance', '8 m'], /first\.s1p has no S21 at 5\./);
    await refused(['--level', '-40 dB', '--distance', '8 m', '--error', 'luck=1 dB'], /one of level, known-gain/);
  });
});

describe('pattern', () => {
  it('is read, drawn and given as one object', async () => {
    const cwd = bench();
    // 0 dB over 90 degrees, -3.01 dB half way down from 0 to -20 dB over the next 10, by hand: 2 x (45 + 10 x 3.0103/20) = 93.0.
    const rows = Array.from({ length: 36 }, (_, i) => [i * 10 - 175, Math.abs(i * 10 - 175) <= 45 ? -30 : -50]);
    writeFileSync(join(cwd, 'cut.csv'), `angle;level\n${rows.map((row) => row.join(';')).join('\n')}\n`);
    const { code, stdout } = await sheetwave(['pattern', 'panel.toml', 'cut.csv', '--plots', 'p', '--json'], { cwd });
    const { measured, predicted, plots } = JSON.parse(stdout);
    expect([code, predicted, plots]).toEqual([0, null, [join('p', 'pattern.svg')]]);
    expect(measured.beamwidthDeg).toBeCloseTo(93.01, 1);
    expect(measured.frontToBackDb).toBeCloseTo(20, 6);
    expect(measured.cross).toBeNull();
    writeFileSync(join(cwd, 'cut.csv'), '0,1\n5,x\n');
    const bad = await sheetwave(['pattern', 'panel.toml', 'cut.csv'], { cwd });
    writeFileSync(
      join(cwd, 'cut.csv'),
      `angle;level;crossed\n${rows.map((row) => `${row.join(';')};-55`).join('\n')}\n`,
    );
    const crossed = await sheetwave(['pattern', 'panel.toml', 'cut.csv'], { cwd });
    expect(crossed.stdout).toMatch(/crossed, within the width +-25\.0 dB/);
    expect(crossed.stdout).toMatch(/nobody in the beam[\s\S]*no work on a mast/);
    expect([bad.code, bad.stderr]).toEqual([3, expect.stringMatching(/cut\.csv:2: "x" is not a number/)]);
  });
});

describe('log', () => {
  it('keeps what was done, shows it, and mends an entry that was cut short', async () => {
    const cwd = bench();
    const add = (...args: string[]) => sheetwave(['log', 'panel.toml', 'add', ...args], { cwd });
    expect((await add('--sweep', 'first.s1p', '--note', 'bare board', '--date', '2026-05-17')).code).toBe(0);
    writeFileSync(
      join(cwd, 'panel.toml'),
      exampleText('etched-2x2-5g5').replace('length = "17.65 mm"', 'length = "17.4 mm"'),
    );
    expect(
      (await add('--sweep', 'second.s1p', '--measured', 'layer[0].length=17.45 mm', '--date', '2026-05-18')).code,
    ).toBe(0);
    const log = join(cwd, 'panel-build-log', 'log.jsonl');
    const whole = readFileSync(log);
    truncateSync(log, whole.length - 40);
    const torn = await sheetwave(['log', 'panel.toml'], { cwd });
    expect(torn.stderr).toMatch(/warning: panel-build-log\/log\.jsonl:2: this entry was being written/);
    expect(torn.stdout).toMatch(/^1 {2}2026-05-17 .*bare board/m);
    expect(
      (await add('--sweep', 'second.s1p', '--measured', 'layer[0].length=17.45 mm', '--date', '2026-05-18')).code,
    ).toBe(0);
    expect(readFileSync(log)).toEqual(whole);
    const shown = await sheetwave(['log', 'panel.toml', '--plots', 'plots'], { cwd });
    expect([shown.code, shown.stderr]).toEqual([0, '']);
    expect(shown.stdout).toMatch(/^2 {2}2026-05-18 +A +5\.4800 GHz .*length of driven 17\.65 mm to 17\.4 mm/m);
    expect(shown.stdout).toMatch(/measured layer\[0\]\.length 17\.45 mm/);
    const asBuilt = await sheetwave(['log', 'panel.toml', 'as-built'], { cwd });
    expect(asBuilt.stdout).toBe(exampleText('etched-2x2-5g5').replace('length = "17.65 mm"', 'length = "17.45 mm"'));
  });

  it('refuses what it cannot keep, and leaves no trace', async () => {
    const cwd = bench();
    const before = snapshot(cwd);
    const refused = async (args: string[], words: RegExp) => {
      const { code, stderr } = await sheetwave(['log', 'panel.toml', ...args], { cwd });
      expect([code === 0, stderr]).toEqual([false, expect.stringMatching(words)]);
      expect(snapshot(cwd)).toEqual(before);
    };
    await refused(['add', '--sweep', 'none.s1p'], /none\.s1p cannot be read: there is no such file/);
    await refused(['add', '--measured', 'layer[0].lenth=3 mm'], /did you mean layer\[0\]\.length/);
    await refused(['add', '--measured', 'layer[0].length=3'], /3 is not a length above 0 mm/);
    await refused(['add', '--date', 'today'], /write it like 2026-05-17/);
    await refused(['sum'], /"sum" is not something to do with a log/);
    await refused(['--note', 'x'], /--note is for adding/);
  });

  it('tells a line that was changed, and a copy that is gone', async () => {
    const cwd = bench();
    await sheetwave(['log', 'panel.toml', 'add', '--sweep', 'first.s1p', '--date', '2026-05-17'], { cwd });
    const folder = join(cwd, 'panel-build-log');
    const { file } = JSON.parse(readFileSync(join(folder, 'log.jsonl'), 'utf8')).entry.sweep;
    appendFileSync(join(folder, file), '! changed');
    appendFileSync(join(folder, 'log.jsonl'), 'not mine\n');
    const { stderr, stdout, code } = await sheetwave(['log', 'panel.toml'], { cwd });
    expect(code).toBe(0);
    expect(stderr).toMatch(/log\.jsonl:2: this line is not a line of a build log/);
    expect(stderr).toMatch(/sweeps\/[0-9a-f]+\.s1p of entry 1 is gone or was changed/);
    expect(stdout).toMatch(/^1 {2}2026-05-17/m);
  });
});
