import type { Design, Finding } from '@sheetwave/design';
import type { FileKind, Measurement } from '@sheetwave/geometry';
import type { Costs, HoleCount, PartLine, RodBend, SheetLine } from '@sheetwave/plan';
import type { EstimateReport, PredictionReport } from '@sheetwave/predict';

/** A file and what it is for. */
export interface SummaryFile {
  readonly path: string;
  readonly kind: FileKind;
  readonly part: string | undefined;
}

/** Everything the summary says, once; the page for the builder and the file for programs both come from it. */
export interface Summary {
  readonly design: Design;
  readonly toolVersion: string;
  readonly reflectorRule: string;
  readonly parts: readonly PartLine[];
  /** What is bought beside the parts. */
  readonly shopping: readonly PartLine[];
  readonly sheets: readonly SheetLine[];
  /** Undefined when the design gives no prices. */
  readonly costs: Costs | undefined;
  readonly dimensions: readonly Measurement[];
  readonly estimate: EstimateReport;
  /** Undefined when the design was not predicted. */
  readonly predictionReport: PredictionReport | undefined;
  readonly holes: readonly HoleCount[];
  readonly bends: readonly RodBend[];
  readonly findings: readonly Finding[];
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
  readonly files: readonly SummaryFile[];
}
