import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { renderFinding } from '../render-finding.ts';
import { readProfile } from './read-profile.ts';
import { namedProfile, readSite } from './read-site.ts';

const GOOD = `format = 1
[radio]
band = "5 GHz"
channel = 157
power = "20 dBm"
[path]
distance = "640 m"
[near]
height = "6 m"
gain = "14 dBi"
[far]
height = "20 ft"
gain = "14 dBi"
cable = "1.5 dB"
`;

const changed = (from: string, to: string): string => {
  if (!GOOD.includes(from)) throw new Error(`the site has no ${from}`);
  return GOOD.replace(from, to);
};

const words = (text: string, profile?: string): string[] => {
  const { findings, profileFindings } = readSite(text, { profile });
  return [...findings, ...profileFindings].map((finding) => renderFinding(finding));
};

describe('a site', () => {
  it('is read into metres, hertz and dBm, with its defaults', () => {
    const { site, findings } = readSite(GOOD);
    expect(findings).toEqual([]);
    expect(site?.radio).toMatchObject({ powerDbm: 20, widthMhz: 20, standard: '802.11n', noiseFigureDb: 6 });
    expect(site?.far.heightM).toBeCloseTo(20 * 0.3048, 9);
    expect(site?.path).toMatchObject({ distanceM: 640, surface: undefined, rainMmPerHour: 60 });
    expect(site?.wanted.marginDb).toBe(10);
    expect(Object.isFrozen(site?.path)).toBe(true);
  });
  // 1 mW is 0 dBm, by definition.
  it.each([
    ['"100 mW"', 20],
    ['"1 W"', 30],
    ['"0.5 W"', 26.9897],
    ['"-3 dBm"', -3],
  ])('takes a power of %s as %f dBm', (text, dbm) => {
    expect(readSite(changed('"20 dBm"', text)).site?.radio.powerDbm).toBeCloseTo(dbm, 4);
  });
});

describe('a power in the wrong unit', () => {
  it.each([
    ['20', /radio\.power: 20 is not a power with its unit; write "20 dBm" \(which is 100 mW\) or "20 mW"/],
    ['"20"', /radio\.power: "?20"? is not a power with its unit; write "20 dBm" \(which is 100 mW\) or "20 mW"/],
    ['"20 W"', /radio\.power: 20 W comes to 43\.0 dBm, which is outside .* \(4 W\); did you mean "20 dBm"\?/],
    ['"100 dBm"', /radio\.power: 100 dBm is outside .*; did you mean "100 mW"\?/],
    ['"20 dBi"', /radio\.power: .*not a power in a known unit; use dBm, mW or W/],
    ['"20 mw"', /radio\.power: .*write "20 mW"/],
    ['"0 mW"', /radio\.power: 0 mW is not a power of a sensible size; give more than 0 mW/],
    ['"-5 W"', /radio\.power: -5 W is not a power of a sensible size; give more than 0 W/],
    ['"20,5 dBm"', /radio\.power: .*decimal point: "20\.5 dBm"/],
  ])('%s', (text, message) => {
    const said = words(changed('"20 dBm"', text));
    expect(said).toEqual([expect.stringMatching(message)]);
    expect(said[0]).toMatch(/^line 5, column 1: /);
  });
});

describe('what a site cannot be is told with its place', () => {
  it.each([
    [changed('"640 m"', '"0 m"'), /line 7.*path\.distance: 0 m is not a distance; give at least 1 m/],
    [changed('"640 m"', '"-640 m"'), /path\.distance: -640 m is not a distance/],
    [changed('"640 m"', '640'), /path\.distance: 640 is not a distance with its unit; write "640 m"/],
    [changed('"640 m"', '"640 dB"'), /path\.distance: 640 dB .*use m, km or ft/],
    [changed('"640 m"', 'nan'), /path\.distance/],
    [changed('distance = "640 m"', ''), /path\.distance: needs a distance.*or a profile/],
    [changed('height = "6 m"', 'hieght = "6 m"'), /near\.hieght: is not a field of a site; did you mean height\?/],
    [changed('"5 GHz"', '"5GHz"'), /radio\.band: .*did you mean "5 GHz"\?/],
    [changed('channel = 157', 'frequency = "5.785 GHz"'), /radio\.frequency: stands beside band or channel/],
    [changed('channel = 157\n', ''), /radio\.channel: needs a band and a channel/],
    [changed('format = 1', 'format = 2'), /format: 2 is not a format/],
    [`${GOOD}[rules]\nregion = "us"\nconditions = ["point to point"]\n`, /did you mean "point-to-point"\?/],
    [`${GOOD}[cover]\nthickness = "2 mm"\ndistance = "9 mm"\n`, /cover\.material: needs a material or a permittivity/],
    [changed('distance = "640 m"', 'profile = "../x.csv"'), /path\.profile: "\.\.\/x\.csv" is not a plain path below/],
    [changed('distance = "640 m"', 'profile = "x.txt"'), /path\.profile: "x\.txt" is not a \.csv file/],
    ['format = ', /not a TOML document/],
  ])('%#', (text, message) => {
    const said = words(text);
    expect(readSite(text).site).toBeUndefined();
    expect(
      said.some((line) => message.test(line)),
      said.join('\n'),
    ).toBe(true);
  });
});

describe('a profile', () => {
  const HEAD = 'distance m,height m\n';
  it('is read from commas, semicolons or tabs, in m, km or ft', () => {
    const { points } = readProfile(
      '\ufeff# made by hand\r\nDistance (km);Height (ft);Obstacle m\r\n0;10;0\r\n\r\n0.64;20;5\r\n',
    );
    expect(points).toEqual([
      { atM: 0, groundM: 3.048, obstacleM: 0 },
      { atM: 640, groundM: 6.096, obstacleM: 5 },
    ]);
  });
  it.each([
    [
      `${HEAD}0,1\n300,2\n200,3\n640,1\n`,
      4,
      /distance: 200 m is not beyond the point before it, 300 m; sort the lines/,
    ],
    [`${HEAD}0,1\n300,2\n300,3\n`, 4, /not beyond the point before it/],
    [`${HEAD}0,1\n-5,2\n`, 3, /distance: -5 m is outside 0 to 200 km/],
    [`${HEAD}0,1\n300,NaN\n`, 3, /height: "NaN" is not a number; give the height in m/],
    [`${HEAD}0,1\n300,\n`, 3, /height: an empty value is not a number/],
    [`${HEAD}0,1\n0.64 km,2\n`, 3, /distance: "0\.64 km" has a unit of its own; give a plain number in m/],
    [`${HEAD}0,1\n300,99999\n`, 3, /height: 99999 m is outside .*check the unit/],
    [`${HEAD}0,1\n300,1,2\n`, 3, /has 3 values where the first line names 2/],
    [`${HEAD}5,1\n300,2\n`, 2, /distance: 5 m is not 0, the near end|5 m 0, the near end/],
    [`${HEAD}0,1\n`, 1, /at least 2 points/],
    ['distance miles,height m\n0,1\n', 1, /"distance miles" is not in m, km or ft/],
    ['distance,height\n0,1\n', 1, /"distance" needs its unit/],
    ['height m,distance m\n0,1\n', 1, /is not the column "distance" with its unit/],
    ['0,1\n640,2\n', 1, /begin with "distance m,height m"/],
    ['distance m,height m,obstacle m\n0,1,0\n640,2,-3\n', 3, /obstacle: -3 m is outside 0 m to 1000 m/],
    ['', 1, /a profile; begin with/],
  ])('%#: names the line', (text, line, message) => {
    const { points, findings } = readProfile(text);
    expect(points).toBeUndefined();
    expect(findings[0]?.line).toBe(line);
    expect(findings.map((finding) => renderFinding(finding)).join('\n')).toMatch(message);
  });
  it('gives the distance, and must agree with one that is given', () => {
    const text = changed('distance = "640 m"', 'profile = "p.csv"');
    expect(namedProfile(text)).toBe('p.csv');
    expect(readSite(text, { profile: `${HEAD}0,1\n700,1\n` }).site?.path.distanceM).toBe(700);
    const both = changed('distance = "640 m"', 'distance = "640 m"\nprofile = "p.csv"');
    expect(words(both, `${HEAD}0,1\n700,1\n`)).toEqual([
      expect.stringMatching(/640 m is not the length of the profile, 700 m/),
    ]);
  });
  it('tells ten faults at most, and never throws', () => {
    const bad = Array.from({ length: 50 }, () => 'x,y').join('\n');
    expect(readProfile(`${HEAD}${bad}`).findings).toHaveLength(10);
    fc.assert(
      fc.property(fc.string({ maxLength: 80 }), (text) => {
        const { points, findings } = readProfile(HEAD + text);
        expect(points === undefined).toBe(findings.length > 0);
      }),
    );
  });
});
