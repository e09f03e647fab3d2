import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exampleText, newFolder, ROOT, sheetwave, snapshot } from './command.ts';

// The link of the demo scenario from the files to the answer, and what is refused on the way.

/** A folder with the site and the design of the demo side by side. */
function heronLock(): string {
  const cwd = newFolder();
  cpSync(join(ROOT, 'examples', 'heron-lock'), cwd, { recursive: true });
  writeFileSync(join(cwd, 'design.toml'), exampleText('brass-2x2-5g8'));
  return cwd;
}

function change(cwd: string, file: string, from: string, to: string): void {
  const text = readFileSync(join(cwd, file), 'utf8');
  if (!text.includes(from)) throw new Error(`${file} has no ${from}`);
  writeFileSync(join(cwd, file), text.replace(from, to));
}

/** No prediction is kept here: the gain is that of the closed forms. */
const env = { XDG_CACHE_HOME: newFolder() };

describe('the link of the demo', () => {
  it('is worked out from the design and the site beside it, and drawn', async () => {
    const cwd = heronLock();
    const { code, stdout, stderr } = await sheetwave(['link', 'design.toml', '--out', 'path/profile.svg'], {
      cwd,
      env,
    });
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(
      /^Heron Lock, boathouse to cottage, 2026-05-17: 640 m at 5\.785 GHz, channel 157, 20 MHz wide\n/,
    );
    expect(stdout).toMatch(
      /The link closes(, but not for sure)?: 26 Mbit\/s needs 10\.0 dB of margin .* by the estimate of its gain/,
    );
    expect(stdout).toMatch(/Highest setting 30 dBm .*47 CFR 15\.407\(a\)\(3\)/);
    expect(stdout).toMatch(/check with your regulator/);
    expect(stdout).toMatch(/local electrical code/);
    expect(readFileSync(join(cwd, 'path', 'profile.svg'), 'utf8')).toMatch(/<svg[^>]+width="190mm"/);
  });

  it('prints one object for programs, the same twice', async () => {
    const cwd = heronLock();
    const [once, twice] = [
      await sheetwave(['link', 'design.toml', '--json'], { cwd, env }),
      await sheetwave(['link', 'design.toml', '--json'], { cwd, env }),
    ];
    expect([once.code, once.stderr, once.stdout]).toEqual([0, '', twice.stdout]);
    const { ok, link, findings } = JSON.parse(once.stdout);
    expect([ok, findings]).toEqual([true, []]);
    // 32.44 + 20 log 5785 + 20 log 0.64 (ITU-R P.525).
    expect(link.path.loss.freeSpaceDb).toBeCloseTo(103.81, 1);
    expect(link.near.gainFrom).toBe('design');
    expect(link.near.legality.best.id).toBe('us-unii-3-point-to-point');
    expect(link.rulesFrom).toMatch(/November 2026/);
  });

  it('needs a gain when there is no design, and then gives the same for it', async () => {
    const cwd = heronLock();
    const refused = await sheetwave(['link'], { cwd, env });
    expect([refused.code, refused.stdout]).toEqual([1, '']);
    expect(refused.stderr).toMatch(/site\.toml:\d+:\d+: near\.gain: needs a gain, as no design is given/);
    change(cwd, 'site.toml', 'height = "6.2 m"', 'gain = "15 dBi"\nheight = "6.2 m"');
    expect((await sheetwave(['link', '--site', 'site.toml'], { cwd, env })).code).toBe(0);
  });

  it('never replaces a picture unasked', async () => {
    const cwd = heronLock();
    writeFileSync(join(cwd, 'p.svg'), 'mine');
    const { code, stderr } = await sheetwave(['link', 'design.toml', '--out', 'p.svg'], { cwd, env });
    expect([code, readFileSync(join(cwd, 'p.svg'), 'utf8')]).toEqual([3, 'mine']);
    expect(stderr).toMatch(/p\.svg is there already/);
    expect((await sheetwave(['link', 'design.toml', '--out', 'p.svg', '--force'], { cwd, env })).code).toBe(0);
  });
});

describe('what cannot be is refused with its place, and nothing is written', () => {
  const cases: readonly (readonly [string, string, string, string, RegExp])[] = [
    [
      'a power without unit',
      'site.toml',
      '"18 dBm"',
      '18',
      /site\.toml:\d+:\d+: radio\.power: 18 is not a power with its unit/,
    ],
    [
      'a power in the wrong unit',
      'site.toml',
      '"18 dBm"',
      '"18 W"',
      /radio\.power: 18 W comes to 42\.6 dBm.*did you mean "18 dBm"/,
    ],
    [
      'an unknown region',
      'site.toml',
      '"us"',
      '"usa"',
      /site\.toml:\d+:\d+: rules\.region: "usa" is not one of.*did you mean "us"/,
    ],
    ['an unknown channel', 'site.toml', '157', '158', /radio\.channel: 158 is no channel/],
    ['an unknown key', 'site.toml', 'surface =', 'sruface =', /path\.sruface: .*did you mean surface/],
    [
      'a gain beyond the aperture',
      'site.toml',
      'height = "6.2 m"',
      'height = "6.2 m"\ngain = "30 dBi"',
      /near\.gain: 30 dBi is more than a flat panel of/,
    ],
    [
      'a profile out of order',
      'profile.csv',
      '150,0,0',
      '15,0,0',
      /profile\.csv:6: distance: 15 m is not beyond the point before it/,
    ],
    ['a profile with a hole', 'profile.csv', '150,0,0', '150,nan,0', /profile\.csv:6: height: "nan" is not a number/],
    ['a design with an error', 'design.toml', '"23.2 mm"', '"0 mm"', /design\.toml:\d+:\d+: layer 1 length: 0 mm/],
  ];
  it.each(cases)('%s', async (_name, file, from, to, words) => {
    const cwd = heronLock();
    change(cwd, file, from, to);
    const before = snapshot(cwd);
    const { code, stdout, stderr } = await sheetwave(['link', 'design.toml', '--out', 'p.svg'], { cwd, env });
    expect([code, stdout, snapshot(cwd)], stderr).toEqual([1, '', before]);
    expect(stderr).toMatch(words);
    expect(stderr).toMatch(/Nothing was written/);
    expect(stderr.match(/^error: /gm)?.length).toBe(1);
  });
  it('a profile that is not there', async () => {
    const cwd = heronLock();
    change(cwd, 'site.toml', 'profile.csv', 'other.csv');
    const { code, stderr } = await sheetwave(['link', 'design.toml'], { cwd, env });
    expect(code).toBe(3);
    expect(stderr).toMatch(/the profile other\.csv that the site names cannot be read: there is no such file/);
  });
});
