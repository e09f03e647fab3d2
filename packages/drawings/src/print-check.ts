import type { Bounds, Point } from '@sheetwave/geometry';
import type { Block } from './block.ts';
import { widthOf } from './box.ts';
import type { Pen } from './pen.ts';

const SQUARE_MM = 20;
const BAR_HEIGHT = 3;
const SIZE = 2.2;
const GAP = 8;
const SHEET_WORDS = ['Print at 100 %, no fitting to the page.', 'Measure both before drilling.'] as const;

/**
 * A bar of known length and a square of 20 mm: a print that is scaled, or scaled in one direction only, shows.
 * The bar's outside edges are its length: its outline is drawn inside them.
 */
export function printCheck(barMm: 100 | 50, words: readonly [string, string] = SHEET_WORDS): Block {
  return {
    isPrintCheck: true,
    widthMm: barMm + GAP + SQUARE_MM,
    heightMm: SQUARE_MM + 4,
    draw: (pen, corner) => {
      drawBar(pen, { x: corner.x, y: corner.y - 7 }, barMm);
      drawSquare(pen, { x: corner.x + barMm + GAP, y: corner.y });
      drawWords(pen, { x: corner.x, y: corner.y - 14 }, words);
    },
  };
}

/** A 100 mm bar, or 50 mm on a sheet of a small part. */
export function barFor(drawing: Bounds): 100 | 50 {
  return widthOf(drawing) < 80 ? 50 : 100;
}

function drawBar(pen: Pen, left: Point, barMm: number): void {
  const bar = pen.group('scale-bar', { stroke: 'none', fill: '#000000' });
  for (let from = 0; from < barMm; from += 10) bar.box(barPiece(left, from));
  const words = pen.group('scale-bar-words');
  for (const mark of [0, barMm / 2, barMm])
    words.text({ x: left.x + mark, y: left.y + 1.2 }, mark === barMm ? `${mark} mm` : `${mark}`, {
      sizeMm: SIZE,
      anchor: mark === 0 ? 'start' : mark === barMm ? 'end' : 'middle',
    });
}

/** Every other centimetre is thick; between them a thin bar keeps the ink in one piece from end to end. */
function barPiece(left: Point, from: number): { minX: number; maxX: number; minY: number; maxY: number } {
  const thick = (from / 10) % 2 === 0;
  const depth = thick ? BAR_HEIGHT : 0.6;
  return { minX: left.x + from, maxX: left.x + from + 10, minY: left.y - depth, maxY: left.y };
}

function drawSquare(pen: Pen, corner: Point): void {
  const square = pen.group('check-square-group', { stroke: 'none', fill: '#000000' });
  const line = 0.15;
  const box = { minX: corner.x, maxX: corner.x + SQUARE_MM, minY: corner.y - SQUARE_MM, maxY: corner.y };
  const inner = { minX: box.minX + line, maxX: box.maxX - line, minY: box.minY + line, maxY: box.maxY - line };
  square.polygons([boxRing(box), boxRing(inner)], { id: 'check-square' });
  const middle = { x: corner.x + SQUARE_MM / 2, y: corner.y - SQUARE_MM / 2 };
  square.text({ x: middle.x, y: middle.y + 0.6 }, '20 × 20', { sizeMm: SIZE, anchor: 'middle' });
  square.text({ x: middle.x, y: middle.y - 2.6 }, 'mm', { sizeMm: SIZE, anchor: 'middle' });
}

const boxRing = (box: { minX: number; maxX: number; minY: number; maxY: number }): readonly Point[] => [
  { x: box.minX, y: box.minY },
  { x: box.maxX, y: box.minY },
  { x: box.maxX, y: box.maxY },
  { x: box.minX, y: box.maxY },
];

function drawWords(pen: Pen, at: Point, [first, second]: readonly [string, string]): void {
  const group = pen.group('print-words');
  group.text(at, first, { sizeMm: SIZE, bold: true });
  group.text({ x: at.x, y: at.y - 3.4 }, second, { sizeMm: SIZE });
}
