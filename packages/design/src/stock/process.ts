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
  /** Width of the line of the pen or scriber; the finish line of a template then lies outside the part, its inner edge on the finished edge. 0 draws a hairline on the edge itself. */
  readonly lineWidthMm: number;
  /** Smallest radius of an inside corner. */
  readonly smallestRadiusMm: number;
  /** What cut files show at inside corners tighter than the process can cut: the corner as drawn, a fillet, or a relief that a square corner fits into. */
  readonly insideCorners: InsideCorners;
  /** Length of the run-in of a jet or beam beside each contour; 0 leaves run-ins to the shop. */
  readonly leadInMm: number;
  /** Bridges that hold a small part in its sheet while it is cut. */
  readonly tabs: Tabs;
  /** Least distance between parts that are cut from one sheet. */
  readonly spacingMm: number;
  /** Least distance of parts from the edge of their sheet. */
  readonly edgeMarginMm: number;
  /** Copper lost on each side of a track while etching; artwork grows by this when it is not 0. */
  readonly undercutMm: number;
  /** Copper thickness over undercut (IPC-T-50); the undercut of a board is its copper over this. 0 when `undercutMm` was given. */
  readonly etchFactor: number;
  /** Least web between a hole's edge and the edge of the part, in mm. */
  readonly leastWebMm: number;
  /** What the process holds on a dimension, ± mm. */
  readonly toleranceMm: number;
  readonly source: string;
  readonly certainty: Certainty;
}

export type InsideCorners = 'as-drawn' | 'round' | 'dog-bone';

export interface Tabs {
  /** How many for each part; 0 for none. */
  readonly count: number;
  /** Width of the metal that is left. */
  readonly widthMm: number;
  /** Only parts whose larger side is below this get tabs. */
  readonly belowMm: number;
}
