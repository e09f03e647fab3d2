import { requirePositive } from '../require.ts';

/** Generations of IEEE 802.11 with orthogonal carriers, by the name of the amendment. */
export const WIFI_STANDARDS = ['802.11a/g', '802.11n', '802.11ac', '802.11ax', '802.11be'] as const;
export type WifiStandard = (typeof WIFI_STANDARDS)[number];

/** Widths of channels in MHz. */
export const WIFI_WIDTHS = [20, 40, 80, 160, 320] as const;
export type WifiWidth = (typeof WIFI_WIDTHS)[number];

/** One way to send: its rate and the least power at which a conforming receiver takes it. */
export interface WifiRate {
  readonly name: string;
  readonly modulation: string;
  readonly bitsPerSecond: number;
  /** At the antenna port, dBm, for a packet error rate of 10 %. A floor: real receivers are 5 to 12 dB better (data sheets, memory). */
  readonly sensitivityDbm: number;
}

interface Scheme {
  readonly modulation: string;
  readonly bits: number;
  readonly code: number;
  /** At 20 MHz; each doubling of the width costs 3 dB. */
  readonly at20Dbm: number;
}

/**
 * Least sensitivities by modulation and coding scheme. 0 to 9: IEEE 802.11-2020 table 21-25; 10 and 11: 802.11ax-2021 table 27-51
 * (confirmed). 12 and 13: 802.11be-2024 clause 36, where texts differ (13: -46 or -47); the weaker receiver is taken (contradiction).
 */
const SCHEMES: readonly Scheme[] = [
  { modulation: 'BPSK 1/2', bits: 1, code: 1 / 2, at20Dbm: -82 },
  { modulation: 'QPSK 1/2', bits: 2, code: 1 / 2, at20Dbm: -79 },
  { modulation: 'QPSK 3/4', bits: 2, code: 3 / 4, at20Dbm: -77 },
  { modulation: '16-QAM 1/2', bits: 4, code: 1 / 2, at20Dbm: -74 },
  { modulation: '16-QAM 3/4', bits: 4, code: 3 / 4, at20Dbm: -70 },
  { modulation: '64-QAM 2/3', bits: 6, code: 2 / 3, at20Dbm: -66 },
  { modulation: '64-QAM 3/4', bits: 6, code: 3 / 4, at20Dbm: -65 },
  { modulation: '64-QAM 5/6', bits: 6, code: 5 / 6, at20Dbm: -64 },
  { modulation: '256-QAM 3/4', bits: 8, code: 3 / 4, at20Dbm: -59 },
  { modulation: '256-QAM 5/6', bits: 8, code: 5 / 6, at20Dbm: -57 },
  { modulation: '1024-QAM 3/4', bits: 10, code: 3 / 4, at20Dbm: -54 },
  { modulation: '1024-QAM 5/6', bits: 10, code: 5 / 6, at20Dbm: -52 },
  { modulation: '4096-QAM 3/4', bits: 12, code: 3 / 4, at20Dbm: -49 },
  { modulation: '4096-QAM 5/6', bits: 12, code: 5 / 6, at20Dbm: -46 },
];

/** Rates of 802.11a/g at 20 MHz (IEEE 802.11-2020 table 17-18; first value confirmed, rest memory). */
const ORTHOGONAL: readonly (readonly [megabits: number, modulation: string, sensitivityDbm: number])[] = [
  [6, 'BPSK 1/2', -82],
  [9, 'BPSK 3/4', -81],
  [12, 'QPSK 1/2', -79],
  [18, 'QPSK 3/4', -77],
  [24, '16-QAM 1/2', -74],
  [36, '16-QAM 3/4', -70],
  [48, '64-QAM 2/3', -66],
  [54, '64-QAM 3/4', -65],
];

/** What a generation sends with: its widths, highest scheme, data carriers by width, and the time of a symbol. */
interface Generation {
  readonly highest: number;
  /** Data carriers by width in MHz (802.11-2020 tables 19-6 and 21-5; 802.11ax-2021 table 27-9; memory). */
  readonly carriers: Readonly<Partial<Record<WifiWidth, number>>>;
  readonly symbolUs: number;
  readonly guardUs: number;
}

const VERY_HIGH = { 20: 52, 40: 108, 80: 234, 160: 468 } as const;
const HIGH_EFFICIENCY = { 20: 234, 40: 468, 80: 980, 160: 1960 } as const;

const GENERATIONS: Readonly<Record<Exclude<WifiStandard, '802.11a/g'>, Generation>> = {
  '802.11n': { highest: 7, carriers: { 20: 52, 40: 108 }, symbolUs: 3.2, guardUs: 0.8 },
  '802.11ac': { highest: 9, carriers: VERY_HIGH, symbolUs: 3.2, guardUs: 0.8 },
  '802.11ax': { highest: 11, carriers: HIGH_EFFICIENCY, symbolUs: 12.8, guardUs: 0.8 },
  '802.11be': { highest: 13, carriers: { ...HIGH_EFFICIENCY, 320: 3920 }, symbolUs: 12.8, guardUs: 0.8 },
};

/** Widths that a standard has. */
export function widthsOf(standard: WifiStandard): readonly WifiWidth[] {
  if (standard === '802.11a/g') return [20];
  const { carriers } = GENERATIONS[standard];
  return WIFI_WIDTHS.filter((width) => carriers[width] !== undefined);
}

/**
 * The rates of a standard from slow to fast, for one or more spatial streams (1 to 8) with a guard interval of 0.8 µs. Empty when the
 * standard has no such width. 802.11ac leaves out scheme 9 at 20 MHz with 1, 2, 4, 5, 7 or 8 streams (802.11-2020 table 21-30; memory).
 */
export function wifiRates(standard: WifiStandard, width: WifiWidth, streams = 1): readonly WifiRate[] {
  requirePositive({ streams });
  if (standard === '802.11a/g') {
    if (width !== 20) return [];
    return ORTHOGONAL.map(([megabits, modulation, sensitivityDbm]) => ({
      name: `${megabits} Mbit/s`,
      modulation,
      bitsPerSecond: megabits * 1e6,
      sensitivityDbm,
    }));
  }
  const { highest, carriers, symbolUs, guardUs } = GENERATIONS[standard];
  const count = carriers[width];
  if (count === undefined) return [];
  const widerDb = 3 * Math.log2(width / 20);
  return SCHEMES.slice(0, highest + 1)
    .map(({ modulation, bits, code, at20Dbm }, index) => ({
      name: `MCS ${index}`,
      modulation,
      bitsPerSecond: (streams * count * bits * code) / ((symbolUs + guardUs) * 1e-6),
      sensitivityDbm: at20Dbm + widerDb,
    }))
    .filter((_, index) => !(standard === '802.11ac' && width === 20 && index === 9 && streams % 3 !== 0));
}
