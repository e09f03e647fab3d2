/**
 * Every row of the table of radio rules, typed here a second time from the text it cites, and what follows from it: the highest conducted
 * power for a panel of 15 dBi behind 1 dB of cable in a channel of 20 MHz, by hand. `confirmed` and `memory` as the rows say.
 */
import { legalPower, RADIO_RULES, REGIONS, rulesFor } from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';

/**
 * id; band in MHz; cap in dBm and where; density in dBm, for how many kHz and where; highest conducted power with power control
 * (15 dBi, 1 dB, 20 MHz); what binds. 14 = 15 - 1 comes off an EIRP; 9 = 15 - 6 off a conducted cap with the knee at 6 dBi; 13.01 = 10 log 20.
 */
type Row = readonly [id: string, low: number, high: number, cap: string, density: string, power: number | undefined];

const ROWS: readonly Row[] = [
  // 47 CFR 15.247: 1 W conducted, 8 dBm in 3 kHz. Density 8 + 10 log(20000/3) = 46.2 never binds.
  ['us-915-digital', 902, 928, '30 conducted', '8/3 conducted', 21],
  ['us-2g4-digital', 2400, 2483.5, '30 conducted', '8/3 conducted', 21],
  // (c)(1)(i): 9 dB over 6 dBi takes 3 dB.
  ['us-2g4-point-to-point', 2400, 2483.5, '30 conducted', '8/3 conducted', 27],
  ['us-2g4-beam-switching', 2400, 2483.5, '30 conducted', '', undefined],
  ['us-5g8-digital', 5725, 5850, '30 conducted', '8/3 conducted', 21],
  ['us-5g8-point-to-point', 5725, 5850, '30 conducted', '8/3 conducted', 30],
  // 47 CFR 15.407(a)(1): 17 dBm/MHz is 30.01 dBm in 20 MHz.
  ['us-unii-1-outdoor', 5150, 5250, '30 conducted', '17/1000 conducted', 21],
  ['us-unii-1-point-to-point', 5150, 5250, '30 conducted', '17/1000 conducted', 30],
  // 11 + 13.01 = 24.01 dBm in 20 MHz, less 9.
  ['us-unii-1-client', 5150, 5250, '24 conducted', '11/1000 conducted', 15],
  ['us-unii-2a', 5250, 5350, '24 conducted', '11/1000 conducted', 15],
  ['us-unii-2c', 5470, 5725, '24 conducted', '11/1000 conducted', 15],
  ['us-unii-3', 5725, 5850, '30 conducted', '30/500 conducted', 21],
  ['us-unii-3-point-to-point', 5725, 5850, '30 conducted', '30/500 conducted', 30],
  ['us-unii-4-indoor', 5850, 5895, '36 eirp', '20/1000 eirp', 33.01 - 14],
  ['us-unii-5', 5925, 6425, '36 eirp', '23/1000 eirp', 22],
  ['us-unii-7', 6525, 6875, '36 eirp', '23/1000 eirp', 22],
  ['us-6g-low-power-indoor', 5925, 7125, '30 eirp', '5/1000 eirp', 18.01 - 14],
  ['us-unii-5-geofenced', 5925, 6425, '24 eirp', '11/1000 eirp', 10],
  ['us-unii-7-geofenced', 6525, 6875, '24 eirp', '11/1000 eirp', 10],
  ['us-6g-very-low-power', 5925, 7125, '14 eirp', '-5/1000 eirp', 8.01 - 14],
  ['eu-2g4', 2400, 2483.5, '20 eirp', '10/1000 eirp', 6],
  ['eu-5150', 5150, 5250, '23 eirp', '10/1000 eirp', 9],
  ['eu-5250', 5250, 5350, '23 eirp', '10/1000 eirp', 9],
  ['eu-5470', 5470, 5725, '30 eirp', '17/1000 eirp', 16],
  ['eu-5725-national', 5725, 5850, '', '', undefined],
  ['eu-5g8-short-range', 5725, 5875, '14 eirp', '', 0],
  ['eu-5g8-fixed-access', 5725, 5875, '36 eirp', '23/1000 eirp', 22],
  ['eu-6g-low-power-indoor', 5945, 6425, '23 eirp', '10/1000 eirp', 9],
  ['eu-6g-very-low-power', 5945, 6425, '14 eirp', '1/1000 eirp', 0],
  ['uk-2g4', 2400, 2483.5, '20 eirp', '10/1000 eirp', 6],
  ['uk-5150', 5150, 5250, '23 eirp', '', 9],
  ['uk-5250', 5250, 5350, '23 eirp', '', 9],
  ['uk-5470', 5470, 5730, '30 eirp', '', 16],
  ['uk-5725-indoor', 5725, 5850, '23 eirp', '', 9],
  ['uk-5g8-fixed-access', 5725, 5850, '36 eirp', '', 22],
  ['uk-6g-low-power-indoor', 5925, 6425, '24 eirp', '', 10],
  ['uk-6g-very-low-power', 5925, 6425, '14 eirp', '', 0],
  ['uk-6g-coordinated', 5925, 6425, '36 eirp', '', 22],
  ['uk-6g-upper', 6425, 6585, '', '', undefined],
  ['israel-2g4', 2400, 2483.5, '20 eirp', '', 6],
  ['israel-5150', 5150, 5250, '23 eirp', '10/1000 eirp', 9],
  ['israel-5250', 5250, 5350, '23 eirp', '10/1000 eirp', 9],
  ['israel-5470', 5470, 5725, '30 eirp', '10/1000 eirp', 23.01 - 14],
  ['taiwan-2g4', 2400, 2483.5, '30 conducted', '', undefined],
  ['taiwan-6g-indoor', 5945, 6425, '23 eirp', '', 9],
  ['canada-5150', 5150, 5250, '23 eirp', '10/1000 eirp', 9],
  ['australia-2g4', 2400, 2483.5, '36 eirp', '', 22],
  ['australia-5g8', 5725, 5850, '36 eirp', '', 22],
  // 10 dBm/MHz conducted to 12.14 dBi: 23.01 dBm in 20 MHz less 2.86.
  ['japan-2g4', 2400, 2497, '', '10/1000 conducted', 23.01 - 2.86],
];

const PANEL = { gainDbi: 15, cableDb: 1, widthHz: 20e6, controlsPower: true };

const byId = (id: string) => {
  const rule = RADIO_RULES.find((each) => each.id === id);
  if (rule === undefined) throw new Error(`no rule ${id}`);
  return rule;
};

it('has these rows and no others, each once', () => {
  expect(RADIO_RULES.map((rule) => rule.id)).toEqual(ROWS.map(([id]) => id));
  expect(new Set(RADIO_RULES.map((rule) => rule.region))).toEqual(new Set(REGIONS));
});

describe.each(ROWS)('%s', (id, low, high, cap, density, power) => {
  const rule = byId(id);
  it('has the band and the caps of its text', () => {
    expect([rule.lowHz / 1e6, rule.highHz / 1e6]).toEqual([low, high]);
    expect(rule.power ? `${rule.power.dbm} ${rule.power.of}` : '').toBe(cap);
    const written = rule.density;
    expect(written ? `${written.dbm}/${written.perHz / 1e3} ${written.of}` : '').toBe(density);
  });
  it('gives the power worked out by hand, and never passes its own cap', () => {
    const legal = legalPower(rule, PANEL);
    if (power === undefined) expect(legal).toBeUndefined();
    else expect(legal?.conductedDbm).toBeCloseTo(power, 1);
    if (legal !== undefined) expect(legal.eirpDbm).toBeCloseTo(legal.conductedDbm + 14, 9);
    if (rule.power?.of === 'eirp') expect(legal?.eirpDbm ?? 0).toBeLessThanOrEqual(rule.power.dbm + 1e-9);
  });
  it('cites a text with its edition and how sure it is', () => {
    expect(rule.source).toMatch(/\d/.test(rule.source) ? /\d/ : /class licence|Ofcom|IR|schedule/);
    expect(rule.edition.length).toBeGreaterThan(3);
  });
});

describe('47 CFR 15.247(c)(1)(i), point-to-point at 2.4 GHz', () => {
  // 6/9/12/15/18/21/24 dBi give 30 … 24 dBm, EIRP 36 … 48 dBm (computed from the rule, confirmed).
  it.each([
    [6, 30, 36],
    [9, 29, 38],
    [12, 28, 40],
    [15, 27, 42],
    [18, 26, 44],
    [21, 25, 46],
    [24, 24, 48],
  ])('%i dBi: %i dBm, EIRP %i dBm', (gainDbi, conducted, eirp) => {
    const legal = legalPower(byId('us-2g4-point-to-point'), { ...PANEL, gainDbi, cableDb: 0 });
    expect([legal?.conductedDbm, legal?.eirpDbm]).toEqual([conducted, eirp]);
  });
  it('a begun 3 dB counts whole', () => {
    const legal = legalPower(byId('us-2g4-point-to-point'), { ...PANEL, gainDbi: 6.5, cableDb: 0 });
    expect(legal?.conductedDbm).toBe(29);
  });
});

it('47 CFR 15.407(a)(1)(iii): 23 dBi reach 53 dBm EIRP, and more gain no more (U-NII-1, point-to-point)', () => {
  for (const gainDbi of [23, 26, 30]) {
    const legal = legalPower(byId('us-unii-1-point-to-point'), { ...PANEL, gainDbi, cableDb: 0 });
    expect(legal?.eirpDbm).toBeCloseTo(53, 9);
  }
});

it('without power control Europe takes 3 dB off where it asks for it: 20 dBm at 5.3 GHz, 27 dBm at 5.6 GHz', () => {
  const bare = { ...PANEL, controlsPower: false };
  expect(legalPower(byId('eu-5250'), bare)?.eirpDbm).toBeCloseTo(20, 9);
  expect(legalPower(byId('eu-5470'), bare)?.eirpDbm).toBeCloseTo(27, 9);
  expect(legalPower(byId('uk-5470'), bare)?.eirpDbm).toBeCloseTo(27, 9);
  expect(legalPower(byId('eu-5150'), bare)?.eirpDbm).toBeCloseTo(23, 9);
});

it('EN 302 502: 2 W EIRP in 10 MHz, 4 W in 20 MHz', () => {
  expect(legalPower(byId('eu-5g8-fixed-access'), { ...PANEL, widthHz: 10e6 })?.eirpDbm).toBeCloseTo(33, 1);
  expect(legalPower(byId('eu-5g8-fixed-access'), PANEL)?.eirpDbm).toBeCloseTo(36, 1);
});

it('finds the rules that hold a whole channel, ends included', () => {
  const ids = (lowMhz: number, highMhz: number) =>
    rulesFor('eu', { lowHz: lowMhz * 1e6, highHz: highMhz * 1e6 }).map((rule) => rule.id);
  expect(ids(5470, 5490)).toEqual(['eu-5470']);
  expect(ids(5240, 5260)).toEqual([]);
  expect(ids(5775, 5795)).toEqual(['eu-5725-national', 'eu-5g8-short-range', 'eu-5g8-fixed-access']);
  expect(ids(3500, 3520)).toEqual([]);
});
