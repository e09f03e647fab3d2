import type { Design } from '@sheetwave/design';
import type { PredictionReport } from '@sheetwave/predict';

/** What stands beside the numbers of a prediction, for programs: whose they are, and the words of the report. */
export function numbersBeside(
  { design, toolVersion }: { readonly design: Design; readonly toolVersion: string },
  report: PredictionReport,
): Readonly<Record<string, unknown>> {
  return {
    tool: { name: 'sheetwave', version: toolVersion },
    design: { name: design.name, revision: design.revision, band: design.band, targets: design.targets },
    report,
  };
}
