/** A cell: text is guarded against being read as a formula, a number is written as it is. */
export type Cell = string | number;

/**
 * Comma-separated values after RFC 4180, section 2: lines end in CR LF, a cell with a comma, a quote or a line break
 * stands in quotes, and a quote inside is doubled.
 *
 * Spreadsheet programs take a cell that starts with `= + - @`, a tab or a return for a formula, and the parts list
 * quotes words from a design file that may come from a stranger: such text gets a leading apostrophe.
 */
export function csvText(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(csvCell).join(',')}\r\n`).join('');
}

function csvCell(cell: Cell): string {
  if (typeof cell === 'number') return csvNumber(cell);
  const plain = guardFormula(cell);
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}

function csvNumber(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`A cell of the parts list is not a finite number: ${value}`);
  return String(value);
}

/** Blanks before the sign are looked through as well: some programs trim a cell before they judge it. */
function guardFormula(text: string): string {
  return /^\s*[=+\-@]|^[\t\r\n]/.test(text) ? `'${text}` : text;
}
