import type { DensityCap, PowerCap, RadioRule, RuleCondition, RuleObstacle } from './radio-rule.ts';

const ETSI_RADAR =
  'Radar detection: 60 s of listening before use, 10 min where the channel touches 5600 to 5650 MHz; leave within 10 s, stay away for 30 min.';
const CONTROL = 'Power control needed; without it the limit falls by 3 dB.';

interface Row {
  readonly id: string;
  readonly mhz: readonly [low: number, high: number];
  readonly service: string;
  /** EIRP in dBm; left out where the table has none. */
  readonly eirp?: number | Omit<PowerCap, 'of'>;
  /** EIRP in dBm for each MHz. */
  readonly density?: number;
  readonly withoutControlDb?: number;
  readonly conditions?: readonly RuleCondition[];
  readonly obstacles?: readonly RuleObstacle[];
  readonly notes?: readonly string[];
  readonly source: string;
  readonly edition: string;
  readonly certainty?: RadioRule['certainty'];
}

/** A row whose caps are on what is radiated, as nearly everywhere outside the United States. */
function radiated(region: RadioRule['region'], row: Row): RadioRule {
  const { id, mhz, service, eirp, density, source, edition } = row;
  const power: PowerCap | undefined =
    eirp === undefined ? undefined : { of: 'eirp', ...(typeof eirp === 'number' ? { dbm: eirp } : eirp) };
  const cap: DensityCap | undefined = density === undefined ? undefined : { of: 'eirp', dbm: density, perHz: 1e6 };
  return {
    id,
    region,
    lowHz: mhz[0] * 1e6,
    highHz: mhz[1] * 1e6,
    service,
    ...(power && { power }),
    ...(cap && { density: cap }),
    ...(row.withoutControlDb !== undefined && { withoutControlDb: row.withoutControlDb }),
    gain: { kind: eirp === undefined ? 'not-known' : 'radiated' },
    conditions: row.conditions ?? [],
    obstacles: row.obstacles ?? [],
    notes: row.notes ?? [],
    source,
    edition,
    certainty: row.certainty ?? 'confirmed',
  };
}

const RLAN_EU = { source: 'ETSI EN 301 893; Decision (EU) 2022/179 as amended by 2022/2307', edition: 'V2.2.1' };

const EU: readonly Row[] = [
  {
    id: 'eu-2g4',
    mhz: [2400, 2483.5],
    service: 'wideband data, 2.4 GHz',
    eirp: 20,
    density: 10,
    notes: ['Above 10 mW the radio must adapt to others (listen before talk or detect and avoid).'],
    source: 'ETSI EN 300 328; ERC/REC 70-03 annex 3',
    edition: 'V2.2.2 (2019-07); density not re-read',
  },
  {
    id: 'eu-5150',
    mhz: [5150, 5250],
    service: 'RLAN sub-band 1',
    eirp: 23,
    density: 10,
    conditions: ['indoor'],
    notes: ['Decision 2022/179 allows limited use outdoors; its text must be read before a fixed link relies on it.'],
    ...RLAN_EU,
  },
  {
    id: 'eu-5250',
    mhz: [5250, 5350],
    service: 'RLAN sub-band 2',
    eirp: 23,
    density: 10,
    withoutControlDb: 3,
    conditions: ['indoor'],
    notes: [ETSI_RADAR, CONTROL],
    ...RLAN_EU,
  },
  {
    id: 'eu-5470',
    mhz: [5470, 5725],
    service: 'RLAN sub-band 3',
    eirp: 30,
    density: 17,
    withoutControlDb: 3,
    notes: [ETSI_RADAR, CONTROL],
    ...RLAN_EU,
  },
  {
    id: 'eu-5725-national',
    mhz: [5725, 5850],
    service: 'RLAN sub-band 4',
    obstacles: ['national'],
    notes: ['National conditions; this table has no number.'],
    source: 'ETSI EN 301 893 annex B',
    edition: 'V2.2.1',
  },
  {
    id: 'eu-5g8-short-range',
    mhz: [5725, 5875],
    service: 'non-specific short-range device',
    eirp: 14,
    source: 'ETSI EN 300 440; ERC/REC 70-03',
    edition: '25 mW',
  },
  {
    id: 'eu-5g8-fixed-access',
    mhz: [5725, 5875],
    service: 'broadband fixed wireless access',
    eirp: { dbm: 36, perMegahertzDbm: 23 },
    density: 23,
    conditions: ['licence'],
    notes: ['National licence or registration.', 'Radar detection in 5725 to 5850 MHz, and power control.'],
    source: 'ETSI EN 302 502; ECC/REC(06)04',
    edition: 'V2.1.1 (2017); 2 W in 10 MHz, 4 W in 20 MHz; density not re-read',
  },
  {
    id: 'eu-6g-low-power-indoor',
    mhz: [5945, 6425],
    service: '6 GHz low power indoors',
    eirp: 23,
    density: 10,
    conditions: ['indoor'],
    source: 'Decision (EU) 2021/1067; ETSI EN 303 687',
    edition: '2021-12-01',
  },
  {
    id: 'eu-6g-very-low-power',
    mhz: [5945, 6425],
    service: '6 GHz very low power',
    eirp: 14,
    density: 1,
    obstacles: ['portable'],
    source: 'Decision (EU) 2021/1067; ETSI EN 303 687',
    edition: '2021',
  },
];

const UK: readonly Row[] = [
  {
    id: 'uk-2g4',
    mhz: [2400, 2483.5],
    service: 'wideband data, 2.4 GHz',
    eirp: 20,
    density: 10,
    source: 'IR 2030; EN 300 328',
    edition: '100 mW',
  },
  {
    id: 'uk-5150',
    mhz: [5150, 5250],
    service: 'RLAN',
    eirp: 23,
    conditions: ['indoor'],
    source: 'IR 2030; 5 GHz RLAN information sheet',
    edition: 'older entry',
  },
  {
    id: 'uk-5250',
    mhz: [5250, 5350],
    service: 'RLAN',
    eirp: 23,
    withoutControlDb: 3,
    conditions: ['indoor'],
    notes: [ETSI_RADAR, CONTROL],
    source: 'IR 2030',
    edition: '100 mW without power control',
  },
  {
    id: 'uk-5470',
    mhz: [5470, 5730],
    service: 'RLAN',
    eirp: 30,
    withoutControlDb: 3,
    notes: [ETSI_RADAR, CONTROL],
    source: 'IR 2030',
    edition: '2021 extends it to 5730 MHz; 500 mW without power control',
  },
  {
    id: 'uk-5725-indoor',
    mhz: [5725, 5850],
    service: 'RLAN',
    eirp: 23,
    conditions: ['indoor'],
    source: 'IR 2030 revision',
    edition: '2021; 200 mW',
  },
  {
    id: 'uk-5g8-fixed-access',
    mhz: [5725, 5850],
    service: 'fixed wireless access under a light licence',
    eirp: 36,
    conditions: ['licence'],
    notes: ['Radar detection.', '5795 to 5815 MHz may be excluded (memory).'],
    source: 'Ofcom 5.8 GHz fixed wireless access licence, IR 2007',
    edition: 'page of 2016-10; 4 W not re-read',
  },
  {
    id: 'uk-6g-low-power-indoor',
    mhz: [5925, 6425],
    service: '6 GHz low power indoors',
    eirp: 24,
    conditions: ['indoor'],
    source: 'IR 2030; Ofcom',
    edition: '250 mW',
  },
  {
    id: 'uk-6g-very-low-power',
    mhz: [5925, 6425],
    service: '6 GHz very low power',
    eirp: 14,
    obstacles: ['portable'],
    source: 'IR 2030; Ofcom',
    edition: '25 mW',
  },
  {
    id: 'uk-6g-coordinated',
    mhz: [5925, 6425],
    service: '6 GHz standard power',
    eirp: 36,
    conditions: ['coordination'],
    notes: ['Decided on 2026-01-09; check since when it is in force.'],
    source: 'Ofcom statement of 2026-01-09',
    edition: 'decision confirmed, 4 W from the consultation',
  },
  {
    id: 'uk-6g-upper',
    mhz: [6425, 6585],
    service: 'upper 6 GHz with priority for Wi-Fi',
    obstacles: ['pending'],
    notes: ['A proposal, consultation closed 2026-03-20: check what was decided after that.'],
    source: 'Ofcom consultation',
    edition: 'pending',
  },
];

const ISRAEL_2021 = { source: 'schedule of 2021', edition: 'as amended 2022' };
/** The schedule gives the limit for radios with power control alone; what holds without it is not said in what was seen. */
const ISRAEL_CONTROL =
  'The limit is for radios that control their power; without it 3 dB less are counted here, as in Europe, which is a careful reading and no text.';
const ISRAEL_RADAR = 'Radar detection on channels 52 to 144; power control.';

const ISRAEL: readonly Row[] = [
  { id: 'israel-2g4', mhz: [2400, 2483.5], service: 'RLAN', eirp: 20, ...ISRAEL_2021 },
  {
    id: 'israel-5150',
    mhz: [5150, 5250],
    service: 'RLAN',
    eirp: 23,
    density: 10,
    conditions: ['indoor'],
    ...ISRAEL_2021,
  },
  {
    id: 'israel-5250',
    mhz: [5250, 5350],
    service: 'RLAN',
    eirp: 23,
    density: 10,
    conditions: ['indoor'],
    notes: [ISRAEL_RADAR, ISRAEL_CONTROL],
    withoutControlDb: 3,
    ...ISRAEL_2021,
  },
  {
    id: 'israel-5470',
    mhz: [5470, 5725],
    service: 'RLAN',
    eirp: 30,
    density: 10,
    conditions: ['indoor'],
    notes: [ISRAEL_RADAR, ISRAEL_CONTROL],
    withoutControlDb: 3,
    ...ISRAEL_2021,
  },
];

const TAIWAN: readonly Row[] = [
  {
    id: 'taiwan-6g-indoor',
    mhz: [5945, 6425],
    service: 'RLAN',
    eirp: 23,
    conditions: ['indoor'],
    source: 'LP0002 5.13.1.1',
    edition: '2024-02-06',
  },
];

const TO_VERIFY = { certainty: 'memory, to be verified' } as const;

const CANADA: readonly Row[] = [
  {
    id: 'canada-5150',
    mhz: [5150, 5250],
    service: 'RLAN',
    eirp: { dbm: 23, perMegahertzDbm: 10 },
    density: 10,
    conditions: ['indoor'],
    notes: ['A licence-exempt class of higher power outdoors exists; read RSS-247.'],
    source: 'RSS-247',
    edition: 'not re-read',
    ...TO_VERIFY,
  },
];

const AUSTRALIA: readonly Row[] = [
  {
    id: 'australia-2g4',
    mhz: [2400, 2483.5],
    service: 'RLAN, digital modulation',
    eirp: 36,
    source: 'LIPD class licence',
    edition: '4 W in an informal text of 2006',
    ...TO_VERIFY,
  },
  {
    id: 'australia-5g8',
    mhz: [5725, 5850],
    service: 'RLAN',
    eirp: 36,
    source: 'LIPD class licence',
    edition: 'not re-read',
    ...TO_VERIFY,
  },
];

const TAIWAN_2G4: RadioRule = {
  id: 'taiwan-2g4',
  region: 'taiwan',
  lowHz: 2400e6,
  highHz: 2483.5e6,
  service: 'RLAN',
  power: { of: 'conducted', dbm: 30 },
  gain: { kind: 'not-known' },
  conditions: [],
  obstacles: [],
  notes: ['What a gain takes off the power stands in LP0002 4.10.1, which this table does not hold.'],
  source: 'LP0002 4.10.1',
  edition: '2024-02-06',
  certainty: 'confirmed',
};

const JAPAN_2G4: RadioRule = {
  id: 'japan-2g4',
  region: 'japan',
  lowHz: 2400e6,
  highHz: 2497e6,
  service: 'RLAN',
  density: { of: 'conducted', dbm: 10, perHz: 1e6 },
  gain: { kind: 'above', freeDbi: 12.14, everyDb: 1 },
  conditions: [],
  obstacles: [],
  notes: ['10 mW for each MHz; a gain above 12.14 dBi comes off it.'],
  source: 'ARIB STD-T66',
  edition: 'not re-read',
  certainty: 'memory, to be verified',
};

/** Rules of the places other than the United States. */
export const OTHER_RULES: readonly RadioRule[] = [
  ...EU.map((row) => radiated('eu', row)),
  ...UK.map((row) => radiated('uk', row)),
  ...ISRAEL.map((row) => radiated('israel', row)),
  TAIWAN_2G4,
  ...TAIWAN.map((row) => radiated('taiwan', row)),
  ...CANADA.map((row) => radiated('canada', row)),
  ...AUSTRALIA.map((row) => radiated('australia', row)),
  JAPAN_2G4,
];
