import type { PredictionQuality, ResonanceKind } from '../prediction.ts';
import type { FlatCover } from '../scene/cover.ts';

/** One number without the cover and with it, both from one grid, and how far the grid may put the change off. */
export interface CoverChange {
  readonly without: number;
  readonly with: number;
  /** Of `with` less `without`; undefined where the second grid has no such value. */
  readonly error: number | undefined;
}

/** One resonance of the antenna. */
export interface CoveredMode {
  readonly kind: ResonanceKind;
  readonly freqHz: CoverChange;
  /** Of a free oscillation. */
  readonly q: CoverChange | undefined;
}

/** What a flat cover does to an antenna, from field solutions with and without it. */
export interface CoverPrediction {
  readonly cover: FlatCover;
  /** Of the sheet: that of the reflector. */
  readonly widthMm: number;
  readonly heightMm: number;
  readonly quality: PredictionQuality;
  /** Free oscillations, the strongest first; where the runs show none, the resonance by impedance that is nearest to the band. May be empty. */
  readonly modes: readonly CoveredMode[];
  /** Of the best match in the sweep. */
  readonly bestMatchHz: CoverChange;
  readonly bestVswr: CoverChange;
  /** Over the design's band. */
  readonly worstVswr: CoverChange;
  /** Lowest over the design's band, with losses, and with mismatch as well, dBi. */
  readonly leastGainDbi: CoverChange;
  readonly leastRealisedGainDbi: CoverChange;
  readonly doubts: readonly string[];
}
