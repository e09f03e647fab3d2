/**
 * Where an antenna is to work: plain, frozen data, as read from a site file. Distances and heights are metres, frequencies hertz, powers
 * dBm, gains dBi, losses dB, sizes of an antenna millimetres.
 */
export interface Site {
  readonly name: string;
  /** ISO 8601 date, or undefined for none. Never the clock. */
  readonly date: string | undefined;
  readonly radio: SiteRadio;
  readonly wanted: {
    /** Least rate, or undefined for the lowest the radio has. */
    readonly bitsPerSecond: number | undefined;
    readonly marginDb: number;
  };
  readonly path: SitePath;
  readonly near: SiteEnd;
  readonly far: SiteEnd;
  /** Undefined: nothing is said about what is legal. */
  readonly rules: { readonly region: string; readonly conditions: readonly string[] } | undefined;
  readonly wind: { readonly speedMPerS: number };
  readonly cover: SiteCover | undefined;
}

/** Where the link is sent: a channel by its number, or a frequency. */
export type SiteTuning =
  | { readonly kind: 'channel'; readonly band: '2.4 GHz' | '5 GHz' | '6 GHz'; readonly channel: number }
  | { readonly kind: 'frequency'; readonly centreHz: number };

export interface SiteRadio {
  readonly tuning: SiteTuning;
  readonly widthMhz: 20 | 40 | 80 | 160 | 320;
  readonly standard: '802.11a/g' | '802.11n' | '802.11ac' | '802.11ax' | '802.11be';
  readonly streams: number;
  /** Total of the conducted power. */
  readonly powerDbm: number;
  readonly controlsPower: boolean;
  readonly noiseFigureDb: number;
  /** Its own sensitivities; empty for those of the standard. */
  readonly rates: readonly { readonly bitsPerSecond: number; readonly sensitivityDbm: number }[];
}

export interface SitePath {
  readonly distanceM: number;
  /** Ground along the path, or undefined for flat ground between both ends. From 0 to `distanceM`. */
  readonly profile: readonly ProfilePoint[] | undefined;
  /** What a second ray is thrown back by, or undefined to leave it out. */
  readonly surface: 'water' | 'ground' | undefined;
  readonly roughnessM: number;
  readonly foliageM: number;
  readonly rainMmPerHour: number;
  /** Undefined to take it from the design. */
  readonly polarisation: 'vertical' | 'horizontal' | undefined;
  readonly refractivityPerKm: number;
}

/** Rising in `atM`. Heights above the same zero as everything of the site. */
export interface ProfilePoint {
  readonly atM: number;
  readonly groundM: number;
  /** What stands on the ground there, 0 for nothing. */
  readonly obstacleM: number;
}

export interface SiteEnd {
  readonly name: string;
  /** Of the antenna above the ground. */
  readonly heightM: number;
  readonly cableDb: number;
  /** Of the antenna, or undefined to take it from the design. */
  readonly gainDbi: number | undefined;
  /** Where it differs from the radio's. */
  readonly powerDbm: number | undefined;
  readonly reflector: { readonly widthMm: number; readonly heightMm: number } | undefined;
}

export interface SiteCover {
  readonly thicknessMm: number;
  /** From the outermost patch to the cover. */
  readonly distanceMm: number;
  readonly permittivity: number;
  readonly lossTangent: number;
}
