import type { Finding } from '@sheetwave/design';
import type { Assembly } from '@sheetwave/geometry';
import type { EstimateReport, Prediction } from '@sheetwave/predict';
import type { PartLine } from './parts-list.ts';
import type { SheetLine } from './sheet-lines.ts';
import type { PlanFile } from './steps/context.ts';

/** Everything a build plan is made from. */
export interface PlanInput {
  readonly assembly: Assembly;
  readonly parts: readonly PartLine[];
  readonly sheets: readonly SheetLine[];
  readonly estimate: EstimateReport;
  /** Default none: the plan then says that its numbers are an estimate. */
  readonly prediction?: Prediction | undefined;
  /** Default what the estimate knows of the driven patch. */
  readonly sensitivities?: readonly Sensitivity[] | undefined;
  readonly findings: readonly Finding[];
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
  readonly files: readonly PlanFile[];
  readonly toolVersion: string;
}

/** How far one dimension moves the resonance. */
export interface Sensitivity {
  /** For people: `length of the driven patch`. */
  readonly what: string;
  /** What the workshop holds, ± mm. */
  readonly toleranceMm: number;
  /** Shift for 0.1 mm more, with its error. */
  readonly mhzPerTenthMm: number;
  readonly errorMhz: number;
}
