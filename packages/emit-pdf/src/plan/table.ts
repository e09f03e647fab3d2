import { textWidth } from '@sheetwave/drawings';
import type { PlanTable } from '@sheetwave/plan';
import type { PdfNode } from '../pdf-file.ts';
import { CAPTION, CELL, CELL_HEAD, RULE, type WordLook } from './look.ts';
import type { Piece, Spot } from './piece.ts';
import { type Later, later, words, wrapped } from './words.ts';

const PAD = 1.2;
/** Rows of a table that is not divided between two pages. */
const KEPT_WHOLE = 14;
/** So that rounding does not break a cell that fits. */
const SLACK = 0.05;

interface Sized {
  readonly widths: readonly number[];
  readonly node: Later;
}

/** A ruled table under its caption; its head comes again on every page that it reaches. */
export function tablePieces(
  table: PlanTable,
  of: { readonly parent: () => PdfNode; readonly widthMm: number },
): readonly Piece[] {
  const node = later(() => of.parent().child('Table'));
  const caption = words(table.caption, {
    look: { ...CAPTION, bold: true },
    widthMm: of.widthMm,
    beforeMm: 4,
    keepsNext: true,
    node: later(() => node().child('Caption')),
  });
  const sized: Sized = { widths: columnWidths(table, of.widthMm), node };
  const head = rowPiece(table.head, sized, 'head');
  const repeat = rowPiece(table.head, sized, 'repeat');
  const whole = table.rows.length <= KEPT_WHOLE;
  return [
    ...caption,
    head,
    ...table.rows.map((row, index): Piece => {
      const keepsNext = whole && index < table.rows.length - 1;
      return { ...rowPiece(row, sized, 'row'), repeat, keepsNext };
    }),
  ];
}

/** As wide as the widest cell while that fits; else columns with long texts share what the others leave. */
function columnWidths(table: PlanTable, widthMm: number): readonly number[] {
  const cells = table.head.map((head, column) => [head, ...table.rows.map((row) => row[column] ?? '')]);
  const natural = cells.map((texts) => Math.max(...texts.map((text, row) => widthOf(text, row))) + 2 * PAD + SLACK);
  const total = natural.reduce((sum, width) => sum + width, 0);
  if (total <= widthMm) return natural;
  const least = cells.map(
    (texts) => Math.min(34, Math.max(...texts.map((text, row) => longestWord(text, row)))) + 2 * PAD + SLACK,
  );
  const leastTotal = least.reduce((sum, width) => sum + width, 0);
  if (leastTotal >= widthMm) return least.map((width) => (width / leastTotal) * widthMm);
  const wish = natural.map((width, column) => Math.max(0, width - (least[column] ?? 0)));
  // The square root keeps one long text from starving the others.
  const weights = wish.map(Math.sqrt);
  return shared(least, wish, { weights, spare: widthMm - leastTotal });
}

/** Spare width by weight, none beyond its wish; what is left over goes round again. */
function shared(
  least: readonly number[],
  wish: readonly number[],
  of: { readonly weights: readonly number[]; readonly spare: number },
): readonly number[] {
  const given = wish.map(() => 0);
  let spare = of.spare;
  for (let round = 0; round < 8 && spare > 1e-6; round++) {
    const open = wish.map((most, column) => (most - (given[column] ?? 0) > 1e-6 ? (of.weights[column] ?? 0) : 0));
    const weight = open.reduce((sum, one) => sum + one, 0);
    if (weight === 0) break;
    const before = spare;
    open.forEach((one, column) => {
      const more = Math.min((before * one) / weight, (wish[column] ?? 0) - (given[column] ?? 0));
      given[column] = (given[column] ?? 0) + more;
      spare -= more;
    });
  }
  return least.map((width, column) => width + (given[column] ?? 0));
}

const lookOf = (row: number): WordLook => (row === 0 ? CELL_HEAD : CELL);
const widthOf = (text: string, row: number): number => textWidth(text, lookOf(row));
const longestWord = (text: string, row: number): number =>
  Math.max(...text.split(' ').map((word) => widthOf(word, row)));

function rowPiece(cells: readonly string[], { widths, node }: Sized, kind: 'head' | 'row' | 'repeat'): Piece {
  const look = kind === 'row' ? CELL : CELL_HEAD;
  const lines = widths.map((width, column) => wrapped(cells[column] ?? '', width - 2 * PAD, look));
  const heightMm = Math.max(...lines.map((cell) => cell.length)) * look.lineMm + 2 * PAD - 0.6;
  const row = later(() => node().child('TR'));
  const paintCells = (spot: Spot): void => {
    let x = PAD;
    lines.forEach((cell, column) => {
      const draw = () => drawCell(spot, cell, { x, look });
      if (kind === 'repeat') draw();
      else {
        const tag = kind === 'head' ? 'TH' : 'TD';
        spot.page.tagged(row().child(tag, kind === 'head' ? { scope: 'Column' } : {}), draw);
      }
      x += widths[column] ?? 0;
    });
  };
  return {
    heightMm,
    beforeMm: 0,
    keepsNext: kind === 'head',
    paint: (spot) => {
      spot.page.artifact(() => drawRules(spot, widths, { heightMm, heavy: kind !== 'row' }));
      if (kind === 'repeat') spot.page.artifact(() => paintCells(spot));
      else paintCells(spot);
    },
  };
}

function drawCell(spot: Spot, cell: readonly string[], at: { readonly x: number; readonly look: WordLook }): void {
  cell.forEach((line, index) => {
    const y = spot.top - PAD - at.look.sizeMm * 0.85 - index * at.look.lineMm;
    const text = index < cell.length - 1 ? `${line} ` : line;
    spot.pen.text({ x: spot.left + at.x, y }, text, { sizeMm: at.look.sizeMm, bold: at.look.bold === true });
  });
}

function drawRules(
  spot: Spot,
  widths: readonly number[],
  of: { readonly heightMm: number; readonly heavy: boolean },
): void {
  const right = spot.left + widths.reduce((sum, width) => sum + width, 0);
  const low = spot.top - of.heightMm;
  spot.pen.line({ x: spot.left, y: low }, { x: right, y: low }, { ...RULE, width: of.heavy ? 0.35 : 0.1 });
  if (of.heavy) spot.pen.line({ x: spot.left, y: spot.top }, { x: right, y: spot.top }, { ...RULE, width: 0.35 });
}
