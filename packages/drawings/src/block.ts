import type { Point } from '@sheetwave/geometry';
import type { Pen } from './pen.ts';

/** A piece of a page's surround: a size, and how to draw it with its upper left corner at a point. */
export interface Block {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Marks what an output in pages puts on every page itself. */
  readonly isPrintCheck?: true;
  draw(pen: Pen, corner: Point): void;
}

export interface PlacedBlock {
  readonly block: Block;
  /** Upper left corner, from the upper left corner of the flow; y is negative downwards. */
  readonly corner: Point;
}

const GAP = 6;

/** Blocks from left to right, a new row when the width is used up; each row as high as its highest block. */
export function flow(
  blocks: readonly Block[],
  widthMm: number,
): { readonly placed: readonly PlacedBlock[]; readonly widthMm: number; readonly heightMm: number } {
  const placed: PlacedBlock[] = [];
  let [x, y, rowHeight, widest] = [0, 0, 0, 0];
  for (const block of blocks) {
    if (x > 0 && x + block.widthMm > widthMm) {
      [x, y, rowHeight] = [0, y - rowHeight - GAP, 0];
    }
    placed.push({ block, corner: { x, y } });
    x += block.widthMm + GAP;
    rowHeight = Math.max(rowHeight, block.heightMm);
    widest = Math.max(widest, x - GAP);
  }
  return { placed, widthMm: widest, heightMm: rowHeight - y };
}
