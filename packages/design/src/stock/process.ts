import type { Certainty } from './types.ts';

/** How a part is cut or etched, with the numbers a drawing needs. Lengths in mm. */
export interface Process {
  readonly id: 'hand' | 'laser' | 'waterjet' | 'mill' | 'etch';
  readonly label: string;
  /** Width of the cut (0 when nothing is cut away beyond the line). */
  readonly kerfMm: number;
  /** True when cut files carry the tool path (offset by half the kerf) instead of the finished outline. */
  readonly compensateKerf: boolean;
  /** Left outside the finish line when rough cutting, to be filed off. */
  readonly allowanceMm: number;
  /** Smallest radius of an inside corner. */
  readonly smallestRadiusMm: number;
  /** Copper lost on each side of a track while etching; artwork grows by this when it is not 0. */
  readonly undercutMm: number;
  /** Least web between a hole's edge and the edge of the part, in mm. */
  readonly leastWebMm: number;
  /** What the process holds on a dimension, ± mm. */
  readonly toleranceMm: number;
  readonly source: string;
  readonly certainty: Certainty;
}
