import { readSite, renderFinding, type Site } from '@sheetwave/design';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LinkAntenna } from './antenna.ts';
import { estimatedAntennaGain, predictedAntennaGain } from './antenna-gain.ts';
import { linkWords } from './link-words.ts';
import { type Link, planLink } from './plan-link.ts';
import { profilePicture } from './profile-picture.ts';

interface Parts {
  readonly radio?: string;
  readonly path?: string;
  readonly near?: string;
  readonly far?: string;
  readonly more?: string;
}

const RADIO = 'band = "5 GHz"\nchannel = 157\npower = "20 dBm"';

function siteOf(parts: Parts = {}, profile?: string): Site {
  const {
    radio = RADIO,
    path = 'distance = "640 m"',
    near = 'height = "8 m"\ngain = "14 dBi"\ncable = "1 dB"',
    far = 'height = "8 m"\ngain = "17 dBi"\ncable = "0.5 dB"',
    more = '',
  } = parts;
  const text = `format = 1\n[radio]\n${radio}\n[path]\n${path}\n[near]\n${near}\n[far]\n${far}\n${more}`;
  const { site, findings, profileFindings } = readSite(text, { profile });
  if (site === undefined)
    throw new Error([...findings, ...profileFindings].map((one) => renderFinding(one)).join('\n'));
  return site;
}

function linkOf(parts: Parts = {}, profile?: string, antenna?: LinkAntenna): Link {
  const { link, findings } = planLink({ site: siteOf(parts, profile), antenna });
  if (link === undefined) throw new Error(findings.map((one) => renderFinding(one)).join('\n'));
  return link;
}

const errorsOf = (parts: Parts, antenna?: LinkAntenna): string[] =>
  planLink({ site: siteOf(parts), antenna })
    .findings.filter(({ severity }) => severity === 'error')
    .map((one) => renderFinding(one));

const PANEL: LinkAntenna = {
  name: 'panel',
  gain: estimatedAntennaGain({ value: 14, error: 1 }),
  reflector: { widthM: 0.13, heightM: 0.13 },
  massKg: 0.4,
  band: { lowHz: 5.725e9, highHz: 5.875e9 },
  vswr: 1.5,
  polarisation: 'vertical',
};

const DRY = 'distance = "640 m"\nrain = "0 mm/h"';

describe('the budget, by hand', () => {
  it('20 dBm - 1 + 14 - 103.8 + 17 - 0.5: 640 m at 5.785 GHz', () => {
    const link = linkOf({ path: DRY });
    // 32.44 + 20 log 5785 + 20 log 0.64 = 32.44 + 75.25 - 3.88 = 103.81 dB (ITU-R P.525).
    expect(link.path.loss.totalDb).toBeCloseTo(103.81, 1);
    expect(link.budget.toFar.eirpDbm).toBeCloseTo(33, 9);
    expect(link.budget.toFar.receivedDbm).toBeCloseTo(20 - 1 + 14 - 103.81 + 17 - 0.5, 1);
    expect(link.budget.toNear.eirpDbm).toBeCloseTo(36.5, 9);
    // -100.98 dBm in 20 MHz and a noise figure of 6 dB.
    expect(link.budget.noiseDbm).toBeCloseTo(-94.97, 1);
    // MCS 0 of 802.11n: -82 dBm.
    expect(link.wanted.marginDb).toBeCloseTo(-54.31 + 82, 1);
    expect(link.closes).toBe(true);
  });
  it('the weaker way counts, where powers differ', () => {
    const weak = linkOf({ path: DRY, far: 'height = "8 m"\ngain = "17 dBi"\npower = "10 dBm"' });
    expect(weak.wanted.marginDb).toBeCloseTo(weak.budget.toNear.receivedDbm + 82, 9);
    expect(weak.budget.toNear.receivedDbm).toBeCloseTo(weak.budget.toFar.receivedDbm - 10, 9);
  });
  it('the gain it asks for closes it exactly', () => {
    const long = { path: 'distance = "30 km"', more: '[wanted]\nrate = "65 Mbit/s"' };
    const ends = (gain: number) => `height = "80 m"\ngain = "${gain.toFixed(6)} dBi"`;
    const short = linkOf({ ...long, near: ends(14), far: ends(17) });
    expect(short.closes).toBe(false);
    const { eachDbi } = short.gainNeeded;
    const again = linkOf({ ...long, near: ends(eachDbi), far: ends(eachDbi) });
    expect(again.wanted.marginDb).toBeCloseTo(10, 4);
    const alone = linkOf({ ...long, near: ends(14), far: ends(short.gainNeeded.farAloneDbi) });
    expect(alone.wanted.marginDb).toBeCloseTo(10, 4);
  });
  it('own rates stand in for those of the standard', () => {
    const own = `${RADIO}\n[[radio.rate]]\nrate = "10 Mbit/s"\nsensitivity = "-90 dBm"`;
    expect(linkOf({ radio: own }).budget.rates.map(({ sensitivityDbm }) => sensitivityDbm)).toEqual([-90]);
  });
  it('falls with the distance', () => {
    fc.assert(
      fc.property(fc.integer({ min: 50, max: 20_000 }), fc.integer({ min: 1, max: 5000 }), (metres, more) => {
        const ends = { near: 'height = "300 m"\ngain = "20 dBi"', far: 'height = "300 m"\ngain = "20 dBi"' };
        const at = (m: number) => linkOf({ ...ends, path: `distance = "${m} m"` }).wanted.marginDb;
        expect(at(metres + more)).toBeLessThan(at(metres));
      }),
      { numRuns: 25 },
    );
  });
});

describe('the path', () => {
  const HILL = 'distance m,height m,obstacle m\n0,0,0\n319,0,0\n320,0,12\n321,0,0\n640,0,0\n';
  it('a tree of 12 m half way cuts a line at 8 m: v = h sqrt(2 (d1 + d2) / (lambda d1 d2)), by hand', () => {
    const link = linkOf({ path: 'profile = "p.csv"' }, HILL);
    // lambda 51.82 mm; h = 12 + 0.006 m of bulge - 8 = 4.006 m; v = 4.006 sqrt(1280 / (0.05182 * 320^2)) = 1.968.
    const v = 4.006 * Math.sqrt(1280 / (0.05182 * 320 ** 2));
    expect(link.path.edges[0]?.parameter).toBeCloseTo(v, 2);
    expect(link.path.loss.edgeDb).toBeCloseTo(6.9 + 20 * Math.log10(Math.hypot(v - 0.1, 1) + v - 0.1), 1);
    expect(link.path.clearance).toMatchObject({ atM: 320 });
    expect(link.path.clearance.clearanceM).toBeCloseTo(-4.006, 2);
    expect(link.path.clear).toBe(false);
    expect(link.path.edgeMethod).toBe('single edge');
    expect(linkWords(link)).toMatch(
      /in the way or near it: 320 m; counted by ITU-R P\.526-15, as a single sharp edge \(4\.1\)/,
    );
  });
  it('a second tree and a hill of many points go by their own parts of the recommendation', () => {
    const two = 'distance m,height m,obstacle m\n0,0,0\n200,0,11\n400,0,11\n640,0,0\n';
    expect(linkOf({ path: 'profile = "p.csv"' }, two).path.edgeMethod).toBe('two edges');
    const hill = linkOf({ path: 'profile = "p.csv"' }, 'distance m,height m\n0,0\n320,12\n640,0\n');
    expect(hill.path.edgeMethod).toBe('terrain');
    // A sharp edge of that height costs less than the hill.
    expect(hill.path.loss.edgeDb).toBeGreaterThan(linkOf({ path: 'profile = "p.csv"' }, HILL).path.loss.edgeDb);
    expect(linkWords(hill)).toMatch(/as terrain of many edges \(4\.5\.2\)/);
  });
  it('rain is told with its rate: 60 mm/h at 5.785 GHz over 5 km, between the rows of ITU-R P.838-3 for 5 and 6 GHz', () => {
    const ends = { near: 'height = "60 m"\ngain = "14 dBi"', far: 'height = "60 m"\ngain = "14 dBi"' };
    const { path } = linkOf({ ...ends, path: 'distance = "5 km"\nrain = "60 mm/h"' });
    // Upright at 5 GHz 0.0002428 * 60^1.5317 = 0.129, at 6 GHz 0.0004878 * 60^1.5728 = 0.306 dB/km.
    expect(path.rain?.dbPerKm).toBeGreaterThan(0.129);
    expect(path.rain?.dbPerKm).toBeLessThan(0.306);
    expect(path.loss.rainDb).toBeCloseTo((path.rain?.dbPerKm ?? 0) * ((path.rain?.effectiveM ?? 0) / 1000), 12);
    expect(linkWords(linkOf(ends))).toMatch(/rain of 60 mm\/h takes 0\.\d\d dB\/km \(ITU-R P\.838-3\)/);
    expect(linkOf({ path: DRY }).path.rain).toBeUndefined();
  });
  it('flat ground far below costs nothing', () => {
    expect(linkOf().path.loss.edgeDb).toBe(0);
    expect(linkOf().path.clear).toBe(true);
  });
  it('a second ray is counted where it takes away only, and moving the far end as told makes it add', () => {
    const at = (height: number) =>
      linkOf({ path: 'distance = "640 m"\nsurface = "water"', far: `height = "${height} m"\ngain = "17 dBi"` }).path;
    // Height for which 2 h1 h2 / d is two half waves, which cancel: 2 * 8 * h / 640 = 0.05182.
    const deep = at(0.05182 * 40);
    expect(deep.secondRay?.lossDb).toBeGreaterThan(5);
    expect(deep.loss.secondRayDb).toBe(deep.secondRay?.lossDb);
    const moved = at(0.05182 * 40 + (deep.secondRay?.moveFarM ?? 0));
    expect(moved.secondRay?.lossDb).toBeLessThan(-3);
    expect(moved.loss.secondRayDb).toBe(0);
  });
  it('short paths have no outage, long ones some; a link without margin has no figure', () => {
    expect(linkOf().availability?.outagePercent).toBe(0);
    const high = { near: 'height = "200 m"\ngain = "24 dBi"', far: 'height = "200 m"\ngain = "24 dBi"' };
    expect(linkOf({ ...high, path: 'distance = "40 km"' }).availability?.outagePercent).toBeGreaterThan(0);
    expect(linkOf({ path: 'distance = "150 km"' }).availability).toBeUndefined();
  });
  it('is drawn, with the zone and the ends named', () => {
    const svg = new TextDecoder().decode(profilePicture(linkOf({ path: 'profile = "p.csv"' }, HILL)));
    for (const word of ['first Fresnel zone', '60 % of it', 'obstacles', 'the line of sight is cut here'])
      expect(svg).toContain(word);
    expect(svg).not.toContain('NaN');
  });
});

describe('what is legal', () => {
  const ruled = (region: string, conditions = '[]') => `[rules]\nregion = "${region}"\nconditions = ${conditions}\n`;
  it('the United States without and with point-to-point at 5.785 GHz, 14 dBi: 22 and 30 dBm (47 CFR 15.407(a)(3))', () => {
    const plain = linkOf({ more: ruled('us') });
    expect(plain.near.legality?.settingDbm).toBe(22);
    expect(plain.near.legality?.best?.id).toBe('us-unii-3');
    const fixed = linkOf({ more: ruled('us', '["point-to-point"]') });
    expect(fixed.near.legality?.settingDbm).toBe(30);
    expect(fixed.near.legality?.best?.id).toBe('us-unii-3-point-to-point');
  });
  it('too much power is told with the setting that is not, and the margin that then is left', () => {
    const radio = 'band = "5 GHz"\nchannel = 100\npower = "23 dBm"';
    const { link, findings } = planLink({ site: siteOf({ radio, more: ruled('eu') }), antenna: undefined });
    const said = findings.map((one) => renderFinding(one));
    // 30 dBm EIRP less 3 without power control, less 14 dBi, plus 1 dB of cable: 14 dBm. Far: 27 - 17 + 0.5 = 10.5.
    expect(said[0]).toMatch(/near: 23 dBm is more than eu-5470 allows.*set the radio to 14 dBm or less.*regulator/);
    expect(said[1]).toMatch(/far: 23 dBm .*set the radio to 10 dBm or less/);
    expect(link?.legalMarginDb).toBeCloseTo((link?.wanted.marginDb ?? 0) - 12.5, 6);
    expect(link && linkWords(link)).toMatch(/Radar detection: 60 s/);
    expect(link && linkWords(link)).toMatch(/The link closes/);
  });
  it('no region: nothing is called legal', () => {
    const { link, findings } = planLink({ site: siteOf(), antenna: undefined });
    expect(findings).toEqual([expect.objectContaining({ code: 'no-region', severity: 'note' })]);
    expect(link && linkWords(link)).toMatch(/nothing is said about what is legal/);
    expect(link?.legalMarginDb).toBeUndefined();
  });
  it('a rule that asks for what the site does not say is told, never used', () => {
    const link = linkOf({ radio: 'band = "5 GHz"\nchannel = 36\npower = "10 dBm"', more: ruled('uk') });
    expect(link.near.legality?.best).toBeUndefined();
    expect(link.near.legality?.rules.map(({ id, needs }) => [id, needs])).toEqual([['uk-5150', ['use indoors']]]);
    expect(linkWords(link)).toMatch(/no rule of the table lets this link be used as it is described/);
  });
  it('unknown regions and bands are refused with the known ones', () => {
    expect(errorsOf({ more: ruled('usa') })).toEqual([
      expect.stringMatching(/rules\.region: "usa" is not one of "us", "eu", .*did you mean "us"\?/),
    ]);
    expect(errorsOf({ more: ruled('atlantis') })[0]).toMatch(/"israel", "taiwan"/);
    expect(errorsOf({ radio: 'frequency = "3.5 GHz"\npower = "20 dBm"', more: ruled('eu') })[0]).toMatch(
      /3490 to 3510 MHz lies in no band that the table has for "eu": 2400-2483\.5 MHz, 5150-5250 MHz/,
    );
  });
});

describe('what does not go together is refused', () => {
  it('gain beyond the aperture, with the physics', () => {
    // 100 mm square: 4 pi 0.01 / 0.05182^2 = 46.8, 16.7 dBi; 125.9 mm square: 18.7 dBi.
    const near = 'height = "8 m"\ngain = "19 dBi"\nreflector = { width = "100 mm", height = "100 mm" }';
    expect(errorsOf({ near })).toEqual([
      expect.stringMatching(
        /near\.gain: 19 dBi is more than a flat panel of 100 x 100 mm can have: .*16\.7 dBi, and 18\.7 dBi/,
      ),
    ]);
    expect(errorsOf({ near: near.replace('19 dBi', '18.6 dBi') })).toEqual([]);
    const claim = 'height = "8 m"\ngain = "24 dBi"';
    expect(errorsOf({ near: claim }, PANEL)[0]).toMatch(/flat panel of 130 x 130 mm/);
    expect(errorsOf({ near: claim })).toEqual([]);
  });
  it.each([
    [
      { radio: 'band = "5 GHz"\nchannel = 37\npower = "20 dBm"' },
      /radio\.channel: 37 is no channel of 20 MHz in the 5 GHz band; use one of 36, 40/,
    ],
    [{ radio: `${RADIO}\nwidth = "320 MHz"` }, /radio\.width: 320 MHz is not a width of the 5 GHz band/],
    [{ radio: `${RADIO}\nwidth = "80 MHz"` }, /radio\.width: 80 MHz is not a width of 802\.11n; use 20, 40 MHz/],
    [
      { more: '[wanted]\nrate = "600 Mbit/s"' },
      /wanted\.rate: 600 Mbit\/s is more than the fastest rate of this radio, 65 Mbit\/s/,
    ],
    [{ near: 'height = "8 m"' }, /near\.gain: needs a gain, as no design is given/],
  ])('%#', (parts, message) => {
    expect(errorsOf(parts)[0]).toMatch(message);
  });
});

/** A field solution of 12 to 14 dBi that rises straight over 5.7 to 5.9 GHz, and of which 2 dB to nothing come back. */
const solved = (meshChecked: boolean) =>
  predictedAntennaGain({
    quality: 'normal',
    meshError: meshChecked ? { resonance: 0.001, s: 0.01, gainDb: 0.3 } : undefined,
    gains: [
      { port: 0, freqHz: [5.7e9, 5.9e9], gainDbi: [12, 14], realisedGainDbi: [10, 14] },
      { port: 1, freqHz: [5.8e9], gainDbi: [99], realisedGainDbi: [99] },
    ],
    response: { error: { frequency: 0.005, gainDb: 0.3, origin: 'a test' } },
  });

describe('with the field solution of a design', () => {
  const bare = { path: DRY, near: 'height = "8 m"', far: 'height = "8 m"', more: '[rules]\nregion = "us"\n' };
  const link = linkOf(bare, undefined, { ...PANEL, gain: solved(true) });
  it('gain and mismatch are those at the channel', () => {
    // 5.785 GHz lies 0.425 of the way: 12.85 dBi, and 2 (1 - 0.425) = 1.15 dB come back.
    expect(link.near.gainDbi).toBeCloseTo(12.85, 9);
    expect(link.far.mismatchDb).toBeCloseTo(1.15, 9);
    expect(link.budget.toFar.eirpDbm).toBeCloseTo(20 + 12.85 - 1.15, 9);
    expect(link.budget.toFar.receivedDbm).toBeCloseTo(20 + 2 * (12.85 - 1.15) - 103.81, 1);
  });
  it('the error holds the slope over the channel and the doubt about the place of the curve', () => {
    // Highest edge of the channel 5.795 GHz, 0.5 % up 5.823975 GHz: 38.975 MHz at 10 dB/GHz.
    expect(link.near.gainErrorDb).toBeCloseTo(0.3 + 0.38975, 9);
    expect(link.near.mismatchErrorDb).toBeCloseTo(0.38975, 9);
    expect(link.marginErrorDb).toBeCloseTo(2 * (0.3 + 2 * 0.38975), 9);
  });
  it('the legal setting takes the highest gain and no mismatch', () => {
    // 12.85 + 0.69 = 13.54 dBi, 7.54 above 6: 22.46 dBm.
    expect(link.near.legality?.best?.legal?.conductedDbm).toBeCloseTo(30 - 7.53975, 6);
    expect(link.near.mostEirpDbm).toBeCloseTo(20 + 13.53975, 6);
  });
  it('says what it took, and how to know better', () => {
    expect(linkWords(link)).toMatch(/Beyond free space, the mismatch of the antennas takes most, 2\.3 dB/);
    expect(linkWords(link)).toMatch(/gain 12\.8 dBi ± 0\.7 dB predicted/);
    expect(linkWords(link)).toMatch(/field solution that sheetwave predict kept \(normal grid\).*from a second grid/);
    const once = linkOf(bare, undefined, { ...PANEL, gain: solved(false) });
    expect(linkWords(once)).toMatch(/sheetwave predict --check-mesh states its error better/);
  });
  it('outside its frequencies the nearest gain is taken, and the channel is warned of', () => {
    const radio = 'band = "5 GHz"\nchannel = 36\npower = "10 dBm"';
    const { link: off, findings } = planLink({
      site: siteOf({ ...bare, radio, more: '' }),
      antenna: { ...PANEL, gain: solved(true) },
    });
    expect(off?.near.gainDbi).toBe(12);
    expect(findings).toContainEqual(expect.objectContaining({ code: 'channel-off-band' }));
  });
});

describe('with a design', () => {
  const bare = { near: 'height = "8 m"', far: 'height = "8 m"' };
  it('both ends have its gain, and are off together', () => {
    const link = linkOf({ ...bare }, undefined, PANEL);
    expect([link.near.gainDbi, link.far.gainDbi, link.marginErrorDb]).toEqual([14, 14, 2]);
    expect([link.near.gainFrom, link.far.gainFrom]).toEqual(['design', 'as near']);
    expect(link.massKg).toBe(0.4);
    // 45 m/s: 1240 Pa on 0.0169 m2 with 1.4.
    expect(link.far.wind?.forceN).toBeCloseTo(1240.3 * 1.4 * 0.0169, 1);
    expect(linkWords(link)).toMatch(/\+\d+\.\d dB ± 2\.0 dB by the estimate of its gain/);
    expect(linkWords(link)).toMatch(/the gain is that of closed forms: .*run sheetwave predict on the design/);
  });
  it('what is radiated at most counts for what is legal and how far people stay', () => {
    const ruled = { ...bare, more: '[rules]\nregion = "us"\n' };
    const link = linkOf(ruled, undefined, PANEL);
    // 14 + 1 dBi are 9 above the free 6: 30 - 9 = 21 dBm (47 CFR 15.407(a)(3)), where 14 dBi alone would leave 22.
    expect(link.near.legality?.settingDbm).toBe(21);
    expect(link.near.legality?.eirpDbm).toBeCloseTo(20 + 15, 9);
    // sqrt(P / (4 pi S)): 35 dBm are 3.162 W, 10 W/m2: 0.1586 m.
    expect(link.near.exposure[0]?.openM).toBeCloseTo(0.1586, 3);
    expect(linkWords(link)).toMatch(/radiates 35\.0 dBm EIRP at most, .*: 1\.0 dB below the limit/);
    const loud = linkOf({ ...ruled, radio: RADIO.replace('20 dBm', '21.5 dBm') }, undefined, PANEL);
    expect(linkWords(loud)).toMatch(/up to 0\.5 dB too much, as far as is known of the gain/);
  });
  it('closes for sure only when the error of both gains leaves the margin', () => {
    const at = (cable: number) =>
      linkOf({ path: DRY, near: `height = "8 m"\ncable = "${cable} dB"`, far: 'height = "8 m"' }, undefined, PANEL);
    // -55.8 dBm at the far end without cable, -82 dBm and 10 dB wanted: 16.2 dB to spare, of which the gains may take 2.
    expect([13, 15, 17].map(at).map(({ closes, closesSurely }) => [closes, closesSurely])).toEqual([
      [true, true],
      [true, false],
      [false, false],
    ]);
    expect(linkWords(at(15))).toMatch(/The link closes, but not for sure/);
  });
  it('a channel beyond its band is warned of', () => {
    const radio = 'band = "5 GHz"\nchannel = 36\npower = "20 dBm"';
    const { findings } = planLink({ site: siteOf({ ...bare, radio }), antenna: PANEL });
    expect(findings).toContainEqual(expect.objectContaining({ code: 'channel-off-band', severity: 'warning' }));
  });
  it('a cover shifts it, upper value and sign; close by only a calculation tells', () => {
    const cover = (mm: number) => `[cover]\nmaterial = "asa"\nthickness = "1 mm"\ndistance = "${mm} mm"`;
    const far = linkOf({ ...bare, more: cover(26) }, undefined, PANEL).cover;
    expect(Math.abs(far?.shift?.hz ?? 0)).toBeLessThanOrEqual(far?.shift?.mostHz ?? 0);
    expect(far?.holds).toBe(true);
    const near = linkOf({ ...bare, more: cover(2) }, undefined, PANEL);
    expect(near.cover?.shift?.hz).toBeLessThan(0);
    expect(linkWords(near)).toMatch(/only a field calculation or a sweep with the cover on tells/);
    expect(linkOf({ more: cover(26) }).cover?.shift).toBeUndefined();
  });
});
