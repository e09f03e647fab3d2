import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Ended, newFolder, ROOT, sheetwave } from './command.ts';
import { TRIAL_PATCH } from './trial-patch.ts';

// What a cover does, from the design and the site to the answer, and on to the link. Its physics is held to another solution in test/physics.

const home = newFolder();
const env = { XDG_CACHE_HOME: join(home, 'cache'), HOME: home };
const cwd = newFolder();
const COVER = '[cover]\nmaterial = "asa"\nthickness = "2 mm"\ndistance = "4 mm"\n';

describe('the cover of the site', () => {
  let first: Ended;
  beforeAll(async () => {
    writeFileSync(join(cwd, 'trial.toml'), TRIAL_PATCH);
    const ends = '[near]\nheight = "8 m"\ngain = "9 dBi"\n[far]\nheight = "8 m"\ngain = "9 dBi"\n';
    const radio = '[radio]\nfrequency = "5.8 GHz"\npower = "10 dBm"\n[path]\ndistance = "640 m"\n';
    writeFileSync(join(cwd, 'site.toml'), `format = 1\n${radio}${ends}${COVER}`);
    first = await sheetwave(['cover', 'trial.toml', '--quality', 'draft', '--json'], { cwd, env });
  });

  it('is solved with and without, and the changes have their errors', () => {
    const { ok, isFromCache, prediction } = JSON.parse(first.stdout);
    expect([ok, isFromCache, prediction.quality]).toEqual([true, false, 'draft']);
    expect(prediction.cover).toMatchObject({ thicknessMm: 2, distanceMm: 4, permittivity: 2.7 });
    // More dielectric in the field of the patch stores more energy: lower (perturbation, Pozar, Microwave Engineering, section 6.7).
    const [{ freqHz }] = prediction.modes;
    expect(freqHz.with).toBeLessThan(freqHz.without);
    expect(freqHz.error).toBeGreaterThan(0);
    expect(freqHz.error).toBeLessThan(0.5 * (freqHz.without - freqHz.with));
    for (const change of [prediction.worstVswr, prediction.leastGainDbi, prediction.leastRealisedGainDbi])
      for (const value of [change.without, change.with, change.error]) expect(Number.isFinite(value)).toBe(true);
  });

  it('is kept, and the link speaks of it; in another cover it is asked for', async () => {
    const again = await sheetwave(['cover', 'trial.toml', '--quality', 'draft', '--json'], { cwd, env });
    const { isFromCache, prediction } = JSON.parse(again.stdout);
    expect([isFromCache, prediction]).toEqual([true, JSON.parse(first.stdout).prediction]);
    const link = await sheetwave(['link', 'trial.toml'], { cwd, env });
    expect(link.stdout).toMatch(
      /by field solutions with and without it \(draft grid\) it moves the [a-z ]+, \d\.\d+ GHz, by .\d+ ± \d+ MHz/,
    );
    const site = readFileSync(join(cwd, 'site.toml'), 'utf8');
    writeFileSync(join(cwd, 'thicker.toml'), site.replace('"2 mm"', '"3 mm"'));
    const other = await sheetwave(['link', 'trial.toml', '--site', 'thicker.toml'], { cwd, env });
    expect(other.stdout).toMatch(/sheetwave cover works out what it does by field solutions/);
  });
});

describe('what cannot be a cover is told before anything is solved', () => {
  const good = ['--material', 'asa', '--thickness', '2 mm', '--distance', '4 mm'];
  const changed = (name: string, value: string) => good.map((word, i) => (good[i - 1] === name ? value : word));
  it.each([
    [changed('--material', 'wood'), 2, /--material wood is not known; give asa, abs/],
    [changed('--thickness', '2'), 2, /--thickness 2 cannot be understood; write it like "2 mm"/],
    [changed('--thickness', '0 mm'), 2, /--thickness 0 mm is outside 0\.01 to 50 mm/],
    [changed('--distance', '-4 mm'), 2, /--distance -4 mm is outside 0 to 1000 mm/],
    [good.slice(0, 4), 2, /a cover needs --distance/],
    [[...good, '--permittivity', '2'], 2, /give one or the other/],
    // The head of the screw: 2.4 mm (ISO 14580, 14583 or 7045 heads of M3 are 2 to 2.4 mm high).
    [changed('--distance', '1 mm'), 5, /cover: 1 mm: is too near: screws, nuts or folded edges reach 2\.4 mm/],
    [['--site', join(ROOT, 'examples', 'heron-lock', 'nowhere.toml')], 3, /cannot be read/],
  ])('%j', async (options, code, words) => {
    const { code: found, stdout, stderr } = await sheetwave(['cover', 'trial.toml', ...options], { cwd, env });
    expect([found, stdout], stderr).toEqual([code, '']);
    expect(stderr).toMatch(words);
  });
});
