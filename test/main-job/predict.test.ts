import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Ended, ended, newFolder, sheetwave, snapshot, startCommand } from './command.ts';
import { TRIAL_PATCH } from './trial-patch.ts';
import { faultsOfPack } from './whole-pack.ts';

// One field solution, in draft, and what the command makes of it: pack, diagrams, S parameters, numbers, and the cache.

const DRAFT = ['--quality', 'draft', '--points', '41'] as const;
const home = newFolder();
const env = { XDG_CACHE_HOME: join(home, 'cache'), HOME: home };
const cached = () => {
  const folder = join(home, 'cache', 'sheetwave', 'predictions');
  return existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.prediction')) : [];
};

/** A Touchstone file of one port in real and imaginary parts, read by hand (Touchstone File Format Specification 1.1; memory). */
function readOnePort(text: string): { readonly freqHz: number; readonly re: number; readonly im: number }[] {
  const lines = text.split('\n').map((line) => line.replace(/!.*/, '').trim());
  const [option = '', ...rows] = lines.filter((line) => line !== '');
  expect(option).toMatch(/^# Hz S RI R 50$/i);
  return rows.map((row) => {
    const [freqHz = Number.NaN, re = Number.NaN, im = Number.NaN, more] = row.split(/\s+/).map(Number);
    expect(more).toBeUndefined();
    return { freqHz, re, im };
  });
}

describe('a design is predicted', () => {
  let cwd: string;
  let first: Ended;
  let second: Ended;
  const pack = () => join(cwd, 'trial-pack');
  const inPack = (path: string) => readFileSync(join(pack(), path), 'utf8');

  beforeAll(async () => {
    cwd = newFolder();
    writeFileSync(join(cwd, 'trial.toml'), TRIAL_PATCH);
    first = await sheetwave(['predict', 'trial.toml', ...DRAFT], { cwd, env });
    second = await sheetwave(['predict', 'trial.toml', ...DRAFT, '--json'], { cwd, env });
  });

  it('says what it costs before, and what the antenna will do after', () => {
    expect([first.code, first.stderr.match(/^error.*$/gm)]).toEqual([0, null]);
    expect(first.stderr).toMatch(/^Solving .* cells, \d+ MB, about .* steps on \d+ threads?: about .*\.$/m);
    for (const words of [
      'Match at coax, 50 ohm',
      'Gain over frequency',
      'Lowest over the band, with losses and mismatch',
      'Gain, with losses',
      'Front to back',
      'How far to trust it',
      'What to do next',
    ])
      expect(first.stdout).toContain(words);
    expect(first.stdout).not.toMatch(/NaN|undefined|\[object/);
  });

  it('is what a sweep is compared with, from the cache or from the pack', async () => {
    // The predicted curve at 0.99 of its frequencies stands for a measurement: every feature lies 1 % low.
    const moved = readOnePort(inPack('prediction/antenna.s1p')).map(
      ({ freqHz, re, im }) => `${0.99 * freqHz} ${re} ${im}`,
    );
    writeFileSync(join(cwd, 'moved.s1p'), `# Hz S RI R 50\n${moved.join('\n')}\n`);
    const compare = async (design: string, cache: string) =>
      JSON.parse(
        (
          await sheetwave(['compare', design, 'moved.s1p', '--json'], {
            cwd,
            env: { ...env, XDG_CACHE_HOME: join(home, cache) },
          })
        ).stdout,
      );
    for (const [cache, place] of [
      ['cache', 'kept by sheetwave predict, quality draft'],
      ['no-cache', 'in trial-pack, quality draft'],
    ] as const) {
      const { prediction, comparison } = await compare('trial.toml', cache);
      expect([prediction.found, prediction.origin]).toEqual([place, 'prediction']);
      expect(comparison.pairs.length).toBeGreaterThan(0);
      for (const { differencePercent } of comparison.pairs) expect(differencePercent).toBeCloseTo(-1, 1);
    }
    // Another antenna is never compared with it.
    writeFileSync(join(cwd, 'other.toml'), TRIAL_PATCH.replace(/^length = "(\d+)/m, 'length = "1$1'));
    const other = await compare('other.toml', 'cache');
    expect(other.prediction?.origin ?? 'estimate').toBe('estimate');
  });

  it('is what a link is planned with, and what it says of the gain holds for no other antenna', async () => {
    const ends = (name: string) => `[${name}]\nheight = "8 m"\n`;
    const radio = '[radio]\nfrequency = "5.8 GHz"\npower = "10 dBm"\n';
    writeFileSync(
      join(cwd, 'site.toml'),
      `format = 1\n${radio}[path]\ndistance = "640 m"\n${ends('near')}${ends('far')}`,
    );
    const linkOf = async (design: string, cache: string) => {
      const at = { cwd, env: { ...env, XDG_CACHE_HOME: join(home, cache) } };
      return JSON.parse((await sheetwave(['link', design, '--json'], at)).stdout).link;
    };
    const { prediction } = JSON.parse(second.stdout);
    const [kept, inPackOnly] = [await linkOf('trial.toml', 'cache'), await linkOf('trial.toml', 'no-cache')];
    // The middle of the band is one of its far fields.
    const middle = prediction.figures.find(({ freqHz }: { freqHz: number }) => Math.abs(freqHz - 5.8e9) < 1);
    for (const { near, far, designGain, marginErrorDb } of [kept, inPackOnly]) {
      expect(designGain).toMatchObject({ method: 'field solution', quality: 'draft', meshChecked: false });
      expect(near.gainDbi).toBeCloseTo(middle.gainDbi, 9);
      expect(far.mismatchDb).toBeCloseTo(middle.gainDbi - middle.realisedGainDbi, 9);
      expect(near.gainErrorDb).toBeGreaterThanOrEqual(prediction.response.error.gainDb);
      expect(marginErrorDb).toBeCloseTo(2 * (near.gainErrorDb + near.mismatchErrorDb), 9);
    }
    writeFileSync(join(cwd, 'fed-elsewhere.toml'), TRIAL_PATCH.replace('from_edge = "2.4 mm"', 'from_edge = "2.3 mm"'));
    expect((await linkOf('fed-elsewhere.toml', 'cache')).designGain.method).toBe('closed forms');
  });

  it('leaves a whole pack with the prediction in it', () => {
    expect(faultsOfPack(pack())).toEqual([]);
    expect(readdirSync(join(pack(), 'prediction')).sort()).toEqual([
      'antenna.s1p',
      'cut-horizontal.svg',
      'cut-vertical.svg',
      'gain.svg',
      'impedance.svg',
      'prediction.json',
      'return-loss.svg',
      'smith-chart.svg',
      'vswr.svg',
    ]);
    expect(inPack('summary.md')).toContain('## What to expect, from the field solver');
  });

  it('solves an unchanged design once', () => {
    expect(second.code).toBe(0);
    expect(JSON.parse(second.stdout)).toMatchObject({ ok: true, isFromCache: true });
    expect(cached()).toHaveLength(1);
  });

  it('prints one object with the response, its error and the words, and nothing else', () => {
    const answer = JSON.parse(second.stdout);
    expect(second.stderr).toBe('');
    const { response } = answer.prediction;
    expect([response.origin, response.referenceOhm, response.freqHz.length, response.s.length]).toEqual([
      'prediction',
      50,
      41,
      41,
    ]);
    expect(response.error.frequency).toBeGreaterThan(0);
    expect(answer.report.tables.map(({ title }: { title: string }) => title)).toEqual([
      'Match at coax, 50 ohm',
      'Gain over frequency',
      'Beam',
    ]);
    expect(answer.request).toEqual({ quality: 'draft', feed: 'as-built', twoMeshes: false, points: 41 });
  });

  it('gives the same reflection as Touchstone, and as the diagram draws it', () => {
    const rows = readOnePort(inPack('prediction/antenna.s1p'));
    const { freqHz, s } = JSON.parse(second.stdout).prediction.response;
    expect(rows.map(({ freqHz: hz }) => hz)).toEqual(freqHz);
    expect(rows.map(({ re, im }) => ({ re, im }))).toEqual(s.map((matrix: unknown[][]) => matrix[0]?.[0]));
    // A passive antenna reflects no more than it gets.
    for (const { re, im } of rows) expect(Math.hypot(re, im)).toBeLessThan(1);
    const tag = /id="return-loss-curve-1"[^>]*>\s*<path d="([^"]*)"/.exec(inPack('prediction/return-loss.svg'));
    const [frame = ''] = /<path id="return-loss-frame"[^>]*>/.exec(inPack('prediction/return-loss.svg')) ?? [];
    const heights = [...frame.matchAll(/[ML][\d.]+ ([\d.]+)/g)].map(([, y]) => Number(y));
    const [top, bottom] = [Math.min(...heights), Math.max(...heights)];
    const curve = [...(tag?.[1] ?? '').matchAll(/[ML]([\d.]+) ([\d.]+)/g)].map(([, , y]) => Number(y));
    // The axis goes from 0 dB at the top to 20 dB below at the bottom: no point of this antenna lies deeper.
    const expected = rows.map(({ re, im }) => top + ((bottom - top) * -20 * Math.log10(Math.hypot(re, im))) / 20);
    expect(curve).toHaveLength(rows.length);
    curve.forEach((y, index) => {
      expect(y).toBeCloseTo(expected[index] ?? Number.NaN, 2);
    });
  });

  it('keeps the prediction when the pack of the same antenna is made again, byte for byte', async () => {
    const before = snapshot(pack());
    const named = join(cwd, 'trial.toml');
    writeFileSync(named, TRIAL_PATCH.replace('for trying things out', 'for trying other things out'));
    const made = await sheetwave(['make', 'trial.toml'], { cwd, env });
    expect([made.code, made.stderr.match(/left out/)]).toEqual([0, null]);
    const after = snapshot(pack());
    for (const path of [...before.keys()].filter((one) => one.startsWith('prediction')))
      expect(after.get(path)).toBe(before.get(path));
    expect(faultsOfPack(pack())).toEqual([]);
    writeFileSync(named, TRIAL_PATCH);
  });

  it('drops it with a word when the antenna is another', async () => {
    const other = newFolder();
    cpSync(pack(), join(other, 'trial-pack'), { recursive: true });
    writeFileSync(join(other, 'trial.toml'), TRIAL_PATCH.replace('"19.5 mm"', '"19.4 mm"'));
    const made = await sheetwave(['make', 'trial.toml'], { cwd: other, env });
    expect([made.code, made.stderr]).toEqual([0, expect.stringContaining('was of another antenna')]);
    expect(existsSync(join(other, 'trial-pack', 'prediction'))).toBe(false);
    expect(faultsOfPack(join(other, 'trial-pack'))).toEqual([]);
  });

  it('leaves a spoilt cache entry aside', async () => {
    const [name = ''] = cached();
    const path = join(home, 'cache', 'sheetwave', 'predictions', name);
    const whole = readFileSync(path, 'utf8');
    // One digit of a number is another: still JSON, and only the digest tells.
    writeFileSync(path, whole.replace(/"efficiency":0\.\d/, '"efficiency":0.1'));
    expect(readFileSync(path, 'utf8')).not.toBe(whole);
    utimesSync(path, 0, 0);
    const answer = await sheetwave(['predict', 'trial.toml', ...DRAFT, '--json'], { cwd, env });
    expect(JSON.parse(answer.stdout)).toMatchObject({ ok: true, isFromCache: false });
    // The solver gives the same bits again, on any number of threads.
    expect(readFileSync(path, 'utf8')).toBe(whole);
  });
});

describe('a prediction that is stopped', () => {
  it.each(['SIGINT', 'SIGTERM'] as const)('by %s leaves nothing behind', async (signal) => {
    const cwd = newFolder();
    const cache = join(newFolder(), 'cache');
    writeFileSync(join(cwd, 'trial.toml'), TRIAL_PATCH);
    const child = startCommand(['predict', 'trial.toml', '--quality', 'fine'], { cwd, env: { XDG_CACHE_HOME: cache } });
    child.stderr?.on('data', (text: string) => {
      if (/Solving/.test(text)) setTimeout(() => child.kill(signal), 300);
    });
    const { code, stderr, stdout } = await ended(child);
    expect([code, stdout]).toEqual([signal === 'SIGINT' ? 130 : 143, '']);
    expect(stderr).toContain('interrupted; nothing was written');
    expect([...snapshot(cwd).keys()]).toEqual(['trial.toml']);
    expect(existsSync(cache)).toBe(false);
  });
});

describe('what cannot be predicted is refused before a step', () => {
  const refused = async (args: readonly string[], more: Readonly<Record<string, string>> = {}) => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'trial.toml'), TRIAL_PATCH);
    const answer = await sheetwave(['predict', 'trial.toml', ...args], { cwd, env: { ...env, ...more } });
    expect([...snapshot(cwd).keys()]).toEqual(['trial.toml']);
    expect(answer.stderr).not.toContain('Solving');
    return answer;
  };

  it.each([
    [['--memory', '1 MB'], 5, /--memory/],
    [['--quality', 'best'], 2, /draft, normal or fine/],
  ] as const)('%j', async (args, code, words) => {
    const answer = await refused(args);
    expect([answer.code, answer.stderr]).toEqual([code, expect.stringMatching(words)]);
  });

  it('a folder that holds files of the user', async () => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'trial.toml'), TRIAL_PATCH);
    mkdirSync(join(cwd, 'trial-pack'));
    writeFileSync(join(cwd, 'trial-pack', 'letter.txt'), 'mine');
    const answer = await sheetwave(['predict', 'trial.toml', '--no-cache'], { cwd, env });
    expect([answer.code, answer.stderr]).toEqual([3, expect.stringContaining('is not a build pack')]);
    expect(answer.stderr).not.toContain('Solving');
    expect([...snapshot(cwd).keys()]).toEqual(['trial-pack', 'trial-pack/letter.txt', 'trial.toml']);
  });

  it('a Node without WebAssembly', async () => {
    const without = '--import=data:text/javascript,delete%20globalThis.WebAssembly';
    const answer = await refused(['--json', '--no-cache'], { NODE_OPTIONS: without });
    expect(answer.code).toBe(5);
    expect(JSON.parse(answer.stdout)).toMatchObject({ ok: false, problem: { code: 'missing-feature' } });
  });
});
