import type { Design, Finding } from '@sheetwave/design';
import type { HoleCount } from './hole-counts.ts';
import type { PartLine } from './parts-list.ts';

/** A dimension that a caliper reads on the finished antenna, in mm. */
export interface Dimension {
  readonly what: string;
  readonly valueMm: number;
}

/** One number of the estimate, worded in the units of the workshop. */
export interface EstimateLine {
  readonly what: string;
  /** In the unit of `unit`, unrounded. */
  readonly value: number;
  readonly unit: string;
  /** Half the width of the band in which the truth is expected, in the same unit. */
  readonly error: number;
  /** Decimals that make sense. */
  readonly digits: number;
  /** What the error rests on. */
  readonly origin: string;
  /** Why the formula is outside its range here; empty when it is inside. */
  readonly doubts: readonly string[];
}

/** What a closed-form calculation expects of the antenna. */
export interface EstimateSummary {
  readonly lines: readonly EstimateLine[];
  /** Plain sentences: what the calculation does not know. */
  readonly leavesOut: readonly string[];
}

/** A file and what it is for. */
export interface SummaryFile {
  readonly path: string;
  readonly kind: string;
  readonly part: string | undefined;
}

/** Everything the summary says, once; the page for the builder and the file for programs both come from it. */
export interface Summary {
  readonly design: Design;
  readonly toolVersion: string;
  readonly reflectorRule: string;
  readonly parts: readonly PartLine[];
  readonly dimensions: readonly Dimension[];
  readonly estimate: EstimateSummary;
  readonly holes: readonly HoleCount[];
  readonly findings: readonly Finding[];
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
  readonly files: readonly SummaryFile[];
}
