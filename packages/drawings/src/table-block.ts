import type { Point } from '@sheetwave/geometry';
import type { Block } from './block.ts';
import type { Pen } from './pen.ts';
import { textWidth } from './text-size.ts';

const SIZE = 2.4;
const ROW = 4.6;
const PAD = 1.6;

/** A ruled table; columns are as wide as their widest cell. */
export function tableBlock(table: {
  readonly id: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}): Block {
  const widths = table.head.map((head, column) =>
    columnWidth(
      head,
      table.rows.map((row) => row[column] ?? ''),
    ),
  );
  const widthMm = widths.reduce((total, width) => total + width, 0);
  const heightMm = (table.rows.length + 1) * ROW;
  return { widthMm, heightMm, draw: (pen, corner) => drawTable(pen, corner, { ...table, widths }) };
}

function columnWidth(head: string, cells: readonly string[]): number {
  const widest = Math.max(
    textWidth(head, { sizeMm: SIZE, bold: true }),
    ...cells.map((cell) => textWidth(cell, { sizeMm: SIZE })),
  );
  return Math.ceil(widest + 2 * PAD);
}

function drawTable(
  pen: Pen,
  corner: Point,
  table: {
    readonly id: string;
    readonly head: readonly string[];
    readonly rows: readonly (readonly string[])[];
    readonly widths: readonly number[];
  },
): void {
  const group = pen.group(table.id, { stroke: '#000000', width: 0.13, fill: 'none' });
  const width = table.widths.reduce((total, one) => total + one, 0);
  const lines = [table.head, ...table.rows];
  const rules = lines.map((_, index) => corner.y - (index + 1) * ROW);
  group.box({ minX: corner.x, maxX: corner.x + width, minY: corner.y - lines.length * ROW, maxY: corner.y });
  group.lines(
    rules.slice(0, -1).map(
      (y) =>
        [
          { x: corner.x, y },
          { x: corner.x + width, y },
        ] as const,
    ),
  );
  lines.forEach((cells, index) => {
    drawRow(
      group,
      { x: corner.x, y: corner.y - (index + 1) * ROW + 1.3 },
      { cells, widths: table.widths, bold: index === 0 },
    );
  });
}

function drawRow(
  pen: Pen,
  at: Point,
  row: { readonly cells: readonly string[]; readonly widths: readonly number[]; readonly bold: boolean },
): void {
  let x = at.x + PAD;
  row.cells.forEach((cell, column) => {
    pen.text({ x, y: at.y }, cell, { sizeMm: SIZE, bold: row.bold });
    x += row.widths[column] ?? 0;
  });
}
