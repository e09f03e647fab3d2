import type { PredictionReport, ReportTable } from '@sheetwave/predict';
import { bullets, plain, table } from '../markdown.ts';

/** A prediction for the builder, as Markdown. */
export function predictionSection(report: PredictionReport): string {
  return [
    `From a field calculation: ${plain(report.heading)}.`,
    ...report.tables.map(tableText),
    bullets(report.trust.map(plain)),
    ...(report.leavesOut.length === 0 ? [] : [`It leaves out:\n\n${bullets(report.leavesOut.map(plain))}`]),
    `What to do next:\n\n${bullets(report.next.map(plain))}`,
  ].join('\n\n');
}

function tableText({ title, columns, rows }: ReportTable): string {
  return table(
    [plain(title), ...columns.map(plain)],
    rows.map(({ what, cells }) => [what, ...cells].map(plain)),
  );
}
