import { WIFI_WIDTHS, type WifiWidth } from './wifi-rates.ts';

/** Bands of IEEE 802.11 channels. */
export const WIFI_BANDS = ['2.4 GHz', '5 GHz', '6 GHz'] as const;
export type WifiBand = (typeof WIFI_BANDS)[number];

/** Where a channel lies. */
export interface WifiChannel {
  /** Number of its centre: 42 for the 80 MHz around channels 36 to 48. */
  readonly number: number;
  readonly centreHz: number;
  readonly widthHz: number;
}

const range = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, index) => from + index * step);

/**
 * Numbers of the channels' centres by band and width (IEEE 802.11-2020 annex E and 19.3.15, 802.11ax-2021 27.3.23; confirmed for 20 MHz,
 * memory for the 40 MHz of 2.4 GHz and for the 320 MHz of 6 GHz).
 */
const CENTRES: Readonly<Record<WifiBand, Readonly<Partial<Record<WifiWidth, readonly number[]>>>>> = {
  '2.4 GHz': { 20: range(1, 13, 1), 40: range(3, 11, 1) },
  '5 GHz': {
    20: [...range(36, 64, 4), ...range(100, 144, 4), ...range(149, 177, 4)],
    40: [38, 46, 54, 62, 102, 110, 118, 126, 134, 142, 151, 159, 167, 175],
    80: [42, 58, 106, 122, 138, 155, 171],
    160: [50, 114, 163],
  },
  '6 GHz': {
    20: range(1, 233, 4),
    40: range(3, 227, 8),
    80: range(7, 215, 16),
    160: range(15, 207, 32),
    320: [31, 63, 95, 127, 159, 191],
  },
};

/** Frequency of a channel number, Hz: 5 MHz apart from where the band counts (IEEE 802.11-2020, 17.3.8.4.2; confirmed). */
const STARTS_HZ: Readonly<Record<WifiBand, number>> = { '2.4 GHz': 2407e6, '5 GHz': 5000e6, '6 GHz': 5950e6 };

/** Numbers that `wifiChannel` knows: of 20 MHz channels, and of the centres of wider ones. */
export function wifiChannelNumbers(band: WifiBand, width: WifiWidth): readonly number[] {
  return CENTRES[band][width] ?? [];
}

/** Widths that a band has. */
export const widthsIn = (band: WifiBand): readonly WifiWidth[] =>
  WIFI_WIDTHS.filter((width) => CENTRES[band][width] !== undefined);

/**
 * A channel by the number of its centre, or the wide one that holds a given 20 MHz channel (36 at 80 MHz gives 42). In the 2.4 GHz band,
 * where wide channels overlap, a number is always that of the centre. Undefined for a number that the band does not have at that width.
 */
export function wifiChannel(band: WifiBand, channel: number, width: WifiWidth): WifiChannel | undefined {
  const centres = wifiChannelNumbers(band, width);
  const narrow = band === '2.4 GHz' ? [] : wifiChannelNumbers(band, 20);
  const around = narrow.includes(channel)
    ? centres.find((centre) => Math.abs(centre - channel) <= (width - 20) / 10)
    : undefined;
  const number = centres.includes(channel) ? channel : around;
  if (number === undefined) return undefined;
  return { number, centreHz: STARTS_HZ[band] + number * 5e6, widthHz: width * 1e6 };
}
