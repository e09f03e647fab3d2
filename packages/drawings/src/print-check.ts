import type { Bounds, Point } from '@sheetwave/geometry';
import type { Block } from './block.ts';
import { widthOf } from './box.ts';
import type { Pen } from './pen.ts';

const SQUARE_MM = 20;
const BAR_HEIGHT = 3;
const SIZE = 2.2;
const GAP = 8;
const SHEET_WORDS = ['Print at 100 %, no fitting to the page.', 'Measure both before drilling.'] as const;

/** Factors across and up the sheet by which a drawing is printed larger, so that a printer that is off gives its true size. */
export interface Stretch {
  readonly x: number;
  readonly y: number;
}

const UNSTRETCHED: Stretch = { x: 1, y: 1 };

/**
 * A bar of known length and a square of 20 mm: a print that is scaled, or scaled in one direction only, shows.
 * The bar's outside edges are its length: its outline is drawn inside them.
 */
export function printCheck(
  barMm: 100 | 50,
  look: { readonly words?: readonly [string, string]; readonly stretch?: Stretch } = {},
): Block {
  const { words = SHEET_WORDS, stretch = UNSTRETCHED } = look;
  const barEnd = barMm * stretch.x + GAP;
  return {
    isPrintCheck: true,
    widthMm: barEnd + SQUARE_MM * stretch.x,
    heightMm: SQUARE_MM * stretch.y + 4,
    draw: (pen, corner) => {
      drawBar(pen, { x: corner.x, y: corner.y - 7 }, { barMm, stretch: stretch.x });
      drawSquare(pen, { x: corner.x + barEnd, y: corner.y }, stretch);
      drawWords(pen, { x: corner.x, y: corner.y - 14 }, words);
    },
  };
}

/** A 100 mm bar, or 50 mm on a sheet of a small part. */
export function barFor(drawing: Bounds): 100 | 50 {
  return widthOf(drawing) < 80 ? 50 : 100;
}

function drawBar(pen: Pen, left: Point, length: { readonly barMm: number; readonly stretch: number }): void {
  const { barMm, stretch } = length;
  const bar = pen.group('scale-bar', { stroke: 'none', fill: '#000000' });
  for (let from = 0; from < barMm; from += 10) bar.box(barPiece(left, from, stretch));
  const words = pen.group('scale-bar-words');
  for (const mark of [0, barMm / 2, barMm])
    words.text({ x: left.x + mark * stretch, y: left.y + 1.2 }, mark === barMm ? `${mark} mm` : `${mark}`, {
      sizeMm: SIZE,
      anchor: mark === 0 ? 'start' : mark === barMm ? 'end' : 'middle',
    });
}

/** Every other centimetre is thick; between them a thin bar keeps the ink in one piece from end to end. */
function barPiece(left: Point, from: number, stretch: number): Bounds {
  const thick = (from / 10) % 2 === 0;
  const depth = thick ? BAR_HEIGHT : 0.6;
  const [minX, maxX] = [left.x + from * stretch, left.x + (from + 10) * stretch];
  return { minX, maxX, minY: left.y - depth, maxY: left.y };
}

function drawSquare(pen: Pen, corner: Point, stretch: Stretch): void {
  const square = pen.group('check-square-group', { stroke: 'none', fill: '#000000' });
  const line = 0.15;
  const [width, height] = [SQUARE_MM * stretch.x, SQUARE_MM * stretch.y];
  const box = { minX: corner.x, maxX: corner.x + width, minY: corner.y - height, maxY: corner.y };
  const inner = { minX: box.minX + line, maxX: box.maxX - line, minY: box.minY + line, maxY: box.maxY - line };
  square.polygons([boxRing(box), boxRing(inner)], { id: 'check-square' });
  const middle = { x: corner.x + width / 2, y: corner.y - height / 2 };
  square.text({ x: middle.x, y: middle.y + 0.6 }, '20 × 20', { sizeMm: SIZE, anchor: 'middle' });
  square.text({ x: middle.x, y: middle.y - 2.6 }, 'mm', { sizeMm: SIZE, anchor: 'middle' });
}

const boxRing = (box: Bounds): readonly Point[] => [
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
