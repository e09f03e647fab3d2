import type { DensityCap, GainRule, PowerCap, RadioRule } from './radio-rule.ts';

const conducted = (dbm: number): PowerCap => ({ of: 'conducted', dbm });
const radiated = (dbm: number): PowerCap => ({ of: 'eirp', dbm });
const perMegahertz = (of: DensityCap['of'], dbm: number): DensityCap => ({ of, dbm, perHz: 1e6 });
const DIGITAL: DensityCap = { of: 'conducted', dbm: 8, perHz: 3e3 };
const ABOVE_6: GainRule = { kind: 'above', freeDbi: 6, everyDb: 1 };
const RADIATED: GainRule = { kind: 'radiated' };
const ANY_GAIN: GainRule = { kind: 'none' };

const NO_KIT =
  '47 CFR 15.203 and 15.204: a transmitter may be used only with the type of antenna it was authorised with, at equal or lower gain; 15.23 covers a few home-built devices.';
const ELEVATION = 'What goes above 30 degrees of elevation must not exceed 21 dBm EIRP.';
const RADAR =
  'Radar detection: 60 s of listening before use, leave within 10 s, stay away for 30 min. Power control from 500 mW EIRP on (memory).';

const us = (
  rule: Omit<RadioRule, 'region' | 'conditions' | 'obstacles' | 'notes'> & {
    readonly conditions?: RadioRule['conditions'];
    readonly obstacles?: RadioRule['obstacles'];
    readonly notes?: readonly string[];
  },
): RadioRule => ({
  conditions: [],
  obstacles: [],
  ...rule,
  region: 'us',
  notes: [...(rule.notes ?? []), NO_KIT],
});

const MIDDLE = {
  power: { of: 'conducted', dbm: 24, perMegahertzDbm: 11 },
  density: perMegahertz('conducted', 11),
  gain: ABOVE_6,
  notes: [RADAR, 'No relief for point-to-point links.'],
  source: '47 CFR 15.407(a)(2), (h)',
  edition: 'B is the 26 dB bandwidth in MHz; the width of the channel is taken',
  certainty: 'confirmed',
} as const;

const AUTOMATED = {
  power: radiated(36),
  density: perMegahertz('eirp', 23),
  gain: RADIATED,
  conditions: ['coordination'],
  notes: [ELEVATION, 'Automated frequency coordination with professional height and position data.'],
  source: '47 CFR 15.407(a)(4), (k)',
  edition: '2020; FCC 20-51. Density and elevation mask from memory',
  certainty: 'confirmed',
} as const;

const GEOFENCED = {
  service: '6 GHz geofenced variable power',
  power: radiated(24),
  density: perMegahertz('eirp', 11),
  gain: RADIATED,
  obstacles: ['geofence'],
  source: '47 CFR 15.407(a)(7), (a)(8)(iii); 91 FR 9140, FCC 26-1',
  edition: 'effective 2026-04-27',
  certainty: 'confirmed',
} as const;

/** Rules of the United States. */
export const US_RULES: readonly RadioRule[] = [
  us({
    id: 'us-915-digital',
    lowHz: 902e6,
    highHz: 928e6,
    service: 'digital modulation, 902 MHz',
    power: conducted(30),
    density: DIGITAL,
    gain: ABOVE_6,
    source: '47 CFR 15.247(b)(3), (b)(4), (e)',
    edition: 'text as of 2026-09-30',
    certainty: 'confirmed',
  }),
  us({
    id: 'us-2g4-digital',
    lowHz: 2400e6,
    highHz: 2483.5e6,
    service: 'digital modulation, 2.4 GHz',
    power: conducted(30),
    density: DIGITAL,
    gain: ABOVE_6,
    source: '47 CFR 15.247(b)(3), (b)(4)',
    edition: 'current in 2026',
    certainty: 'confirmed',
  }),
  us({
    id: 'us-2g4-point-to-point',
    lowHz: 2400e6,
    highHz: 2483.5e6,
    service: 'digital modulation, 2.4 GHz, fixed point-to-point only',
    power: conducted(30),
    density: DIGITAL,
    gain: { kind: 'above', freeDbi: 6, everyDb: 3 },
    conditions: ['point-to-point'],
    notes: [
      '1 dB less for every 3 dB of gain above 6 dBi; a begun 3 dB counts whole here, which is the careful reading.',
    ],
    source: '47 CFR 15.247(c)(1)(i)',
    edition: 'current in 2026',
    certainty: 'confirmed',
  }),
  us({
    id: 'us-2g4-beam-switching',
    lowHz: 2400e6,
    highHz: 2483.5e6,
    service: 'beam-switching antennas, 2.4 GHz',
    power: conducted(30),
    gain: { kind: 'not-known' },
    obstacles: ['beam-switching'],
    source: '47 CFR 15.247(c)(2)',
    edition: 'not re-read',
    certainty: 'memory',
  }),
  us({
    id: 'us-5g8-digital',
    lowHz: 5725e6,
    highHz: 5850e6,
    service: 'digital modulation, 5.8 GHz',
    power: conducted(30),
    density: DIGITAL,
    gain: ABOVE_6,
    notes: ['Wi-Fi is certified under 15.407 instead.'],
    source: '47 CFR 15.247(b)(3), (b)(4)',
    edition: 'not re-read',
    certainty: 'memory',
  }),
  us({
    id: 'us-5g8-point-to-point',
    lowHz: 5725e6,
    highHz: 5850e6,
    service: 'digital modulation, 5.8 GHz, fixed point-to-point only',
    power: conducted(30),
    density: DIGITAL,
    gain: ANY_GAIN,
    conditions: ['point-to-point'],
    notes: ['Wi-Fi is certified under 15.407 instead.'],
    source: '47 CFR 15.247(c)(1)(ii)',
    edition: 'not re-read',
    certainty: 'memory',
  }),
  us({
    id: 'us-unii-1-outdoor',
    lowHz: 5150e6,
    highHz: 5250e6,
    service: 'U-NII-1 access point outdoors',
    power: conducted(30),
    density: perMegahertz('conducted', 17),
    gain: ABOVE_6,
    notes: [ELEVATION],
    source: '47 CFR 15.407(a)(1)(i)',
    edition: 'since 2014-06; text of 2015, 2016 and later',
    certainty: 'confirmed',
  }),
  us({
    id: 'us-unii-1-point-to-point',
    lowHz: 5150e6,
    highHz: 5250e6,
    service: 'U-NII-1 fixed point-to-point access point',
    power: conducted(30),
    density: perMegahertz('conducted', 17),
    gain: { kind: 'above', freeDbi: 23, everyDb: 1 },
    conditions: ['point-to-point'],
    source: '47 CFR 15.407(a)(1)(iii)',
    edition: 'correction 79 FR 76902, effective 2014-12-23',
    certainty: 'confirmed',
  }),
  us({
    id: 'us-unii-1-client',
    lowHz: 5150e6,
    highHz: 5250e6,
    service: 'U-NII-1 client',
    power: conducted(24),
    density: perMegahertz('conducted', 11),
    gain: ABOVE_6,
    conditions: ['client'],
    source: '47 CFR 15.407(a)(1)(iv)',
    edition: 'not re-read',
    certainty: 'memory',
  }),
  us({ ...MIDDLE, id: 'us-unii-2a', lowHz: 5250e6, highHz: 5350e6, service: 'U-NII-2A' }),
  us({ ...MIDDLE, id: 'us-unii-2c', lowHz: 5470e6, highHz: 5725e6, service: 'U-NII-2C' }),
  us({
    id: 'us-unii-3',
    lowHz: 5725e6,
    highHz: 5850e6,
    service: 'U-NII-3',
    power: conducted(30),
    density: { of: 'conducted', dbm: 30, perHz: 500e3 },
    gain: ABOVE_6,
    source: '47 CFR 15.407(a)(3)',
    edition: '1 W seen without its edition',
    certainty: 'confirmed',
  }),
  us({
    id: 'us-unii-3-point-to-point',
    lowHz: 5725e6,
    highHz: 5850e6,
    service: 'U-NII-3, fixed point-to-point only',
    power: conducted(30),
    density: { of: 'conducted', dbm: 30, perHz: 500e3 },
    gain: ANY_GAIN,
    conditions: ['point-to-point'],
    source: '47 CFR 15.407(a)(3)',
    edition: 'point-to-point clause not re-read',
    certainty: 'memory',
  }),
  us({
    id: 'us-unii-4-indoor',
    lowHz: 5850e6,
    highHz: 5895e6,
    service: 'U-NII-4 access point indoors',
    power: radiated(36),
    density: perMegahertz('eirp', 20),
    gain: RADIATED,
    conditions: ['indoor'],
    obstacles: ['integrated-antenna'],
    source: '47 CFR 15.407(a)(3)',
    edition: '2021; 36 dBm indoors confirmed, the rest from memory',
    certainty: 'confirmed',
  }),
  us({ ...AUTOMATED, id: 'us-unii-5', lowHz: 5925e6, highHz: 6425e6, service: 'U-NII-5 standard power' }),
  us({ ...AUTOMATED, id: 'us-unii-7', lowHz: 6525e6, highHz: 6875e6, service: 'U-NII-7 standard power' }),
  us({
    id: 'us-6g-low-power-indoor',
    lowHz: 5925e6,
    highHz: 7125e6,
    service: '6 GHz low power indoors',
    power: radiated(30),
    density: perMegahertz('eirp', 5),
    gain: RADIATED,
    conditions: ['indoor'],
    obstacles: ['integrated-antenna'],
    notes: ['Contention protocol needed.'],
    source: '47 CFR 15.407(a)(5), (a)(6)',
    edition: '2020',
    certainty: 'confirmed',
  }),
  us({ ...GEOFENCED, id: 'us-unii-5-geofenced', lowHz: 5925e6, highHz: 6425e6 }),
  us({ ...GEOFENCED, id: 'us-unii-7-geofenced', lowHz: 6525e6, highHz: 6875e6 }),
  us({
    id: 'us-6g-very-low-power',
    lowHz: 5925e6,
    highHz: 7125e6,
    service: '6 GHz very low power',
    power: radiated(14),
    density: perMegahertz('eirp', -5),
    gain: RADIATED,
    obstacles: ['portable'],
    source: '47 CFR 15.407(a)(9)',
    edition: 'U-NII-5 and -7 effective 2024-03-08, the rest later; values not re-read',
    certainty: 'memory',
  }),
];
