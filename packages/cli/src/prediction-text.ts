import type { PredictionReport, ReportTable } from '@sheetwave/predict';

const WIDTH = 96;

/** A prediction, or what a cover does, as a builder reads it on a terminal. */
export function predictionText(report: PredictionReport): string {
  return [
    `Predicted: ${report.heading}.`,
    ...report.tables.map(tableText),
    listText('How far to trust it', report.trust),
    listText('It leaves out', report.leavesOut),
    listText('What to do next', report.next),
  ]
    .filter((block) => block !== '')
    .join('\n\n');
}

/** Columns as wide as their widest cell; a head only where there is more than one column of numbers. */
function tableText({ title, columns, rows }: ReportTable): string {
  const isNumbers = columns.length > 2 || columns.every((head) => /\d/.test(head));
  const lines = [...(isNumbers ? [['', ...columns]] : []), ...rows.map(({ what, cells }) => [what, ...cells])];
  const widths = [0, ...columns.map((_, index) => index + 1)].map((column) =>
    Math.max(...lines.map((line) => (line[column] ?? '').length)),
  );
  const text = lines.map((line) =>
    `  ${line.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join('  ')}`.trimEnd(),
  );
  return [title, ...text].join('\n');
}

function listText(title: string, sentences: readonly string[]): string {
  if (sentences.length === 0) return '';
  return [title, ...sentences.flatMap((sentence) => wrapped(sentence))].join('\n');
}

function wrapped(sentence: string): readonly string[] {
  const lines: string[] = [];
  let line = '  -';
  for (const word of sentence.split(' ')) {
    if (line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = '   ';
    }
    line = `${line} ${word}`;
  }
  return [...lines, line];
}
