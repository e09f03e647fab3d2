import { type Costs, type PartLine, totalText } from '@sheetwave/plan';
import { type Cell, csvText } from './csv.ts';

const HEAD = ['part', 'what', 'quantity', 'stock', 'label', 'size', 'process', 'mass each g', 'files', 'note'];

/**
 * The parts list as a spreadsheet reads it; the columns are those of the first line. With prices three more columns and a last line
 * with the total: the cost of all that is bought of one stock stands on its first line.
 */
export function partsCsv(lines: readonly PartLine[], costs?: Costs): string {
  if (costs === undefined) return csvText([HEAD, ...lines.map(csvRow)]);
  const costOf = new Map(costs.lines.map((one) => [one.line, one]));
  const rows = lines.map((line) => {
    const cost = costOf.get(line.id);
    return [...csvRow(line), ...(cost === undefined ? ['', '', ''] : [cost.price, cost.amount, cost.cost])];
  });
  const head = [...HEAD, 'price', 'paid for', `cost ${costs.currency}`];
  const blank = HEAD.slice(3).map(() => '');
  blank[blank.length - 1] = costs.rule;
  return csvText([head, ...rows, ['total', totalText(costs), 1, ...blank, '', '', costs.total]]);
}

function csvRow(line: PartLine): Cell[] {
  const { id, name, quantity, stock, label, size, process, massG, files, note } = line;
  // Nothing weighs nothing: the mass of some hardware is not known.
  return [id, name, quantity, stock, label, size, process, massG === 0 ? '' : massG, files.join(' '), note];
}
