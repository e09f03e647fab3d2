import type { Finding } from '@sheetwave/design';
import type { Assembly } from '@sheetwave/geometry';
import type { EstimateReport, Prediction, PredictionQuality, Sensitivity } from '@sheetwave/predict';
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
  readonly sensitivities?: SolvedSensitivities | undefined;
  readonly findings: readonly Finding[];
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
  readonly files: readonly PlanFile[];
  readonly toolVersion: string;
}

/** What the field solver says of the dimensions of a design. */
export interface SolvedSensitivities {
  /** How fine its grid was. */
  readonly quality: PredictionQuality;
  /** One for each dimension that was solved for; the others are said to be unknown. */
  readonly solved: readonly Sensitivity[];
}
