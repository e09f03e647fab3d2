import type { PartLine } from '@sheetwave/plan';
import { type Cell, csvText } from './csv.ts';

const HEAD = ['part', 'what', 'quantity', 'stock', 'label', 'size', 'process', 'mass each g', 'files', 'note'];

/** The parts list as a spreadsheet reads it; the columns are those of the first line. */
export function partsCsv(lines: readonly PartLine[]): string {
  return csvText([HEAD, ...lines.map(csvRow)]);
}

function csvRow(line: PartLine): Cell[] {
  const { id, name, quantity, stock, label, size, process, massG, files, note } = line;
  return [id, name, quantity, stock, label, size, process, massG, files.join(' '), note];
}
