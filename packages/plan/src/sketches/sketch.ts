import { arrowHead, type Pen, type Style, textBox, union } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';

/** Line and words of sketches: black on white, so that a poor printer loses nothing. */
export const LINE = { stroke: '#000000', width: 0.25, fill: 'none' } as const satisfies Style;
export const THIN = { stroke: '#000000', width: 0.13, fill: 'none' } as const satisfies Style;
export const METAL = { stroke: '#000000', width: 0.25, fill: '#d4d4d4' } as const satisfies Style;
export const OTHER_METAL = { stroke: '#000000', width: 0.25, fill: '#a8a8a8' } as const satisfies Style;
export const PLASTIC = { stroke: '#000000', width: 0.2, fill: '#f2f2f2' } as const satisfies Style;
export const WORDS = { sizeMm: 2.6 } as const;

export const boxOf = (minX: number, minY: number, maxX: number, maxY: number): Bounds => ({ minX, minY, maxX, maxY });

/** Words with a thin line to what they are about. */
export interface Pointer {
  readonly words: string;
  readonly at: Point;
  readonly to: Point;
  readonly anchor?: 'start' | 'middle' | 'end';
}

export function drawPointers(pen: Pen, pointers: readonly Pointer[]): void {
  for (const { words, at, to, anchor = 'start' } of pointers) {
    const from = { x: at.x + { start: -1, middle: 0, end: 1 }[anchor], y: at.y + 0.9 };
    pen.line(from, to, THIN);
    pen.circle(to, 0.4, { fill: '#000000', stroke: 'none' });
    pen.text(at, words, { ...WORDS, anchor });
  }
}

export const pointersBox = (pointers: readonly Pointer[]): Bounds =>
  pointers
    .map(({ words, at, anchor = 'start' }) => textBox(words, at, { ...WORDS, anchor }))
    .reduce(union, boxOf(0, 0, 0, 0));

/** A level dimension between two places, its words above the line. */
export function drawSpan(
  pen: Pen,
  span: {
    readonly from: number;
    readonly to: number;
    readonly y: number;
    readonly words: string;
    readonly edgeY: number;
  },
): void {
  const { from, to, y, words, edgeY } = span;
  const ends = [
    [
      { x: from, y: edgeY },
      { x: from, y: y + Math.sign(y - edgeY) },
    ],
    [
      { x: to, y: edgeY },
      { x: to, y: y + Math.sign(y - edgeY) },
    ],
  ] as const;
  pen.lines(ends, THIN);
  pen.line({ x: from, y }, { x: to, y }, THIN);
  const lengthMm = Math.min(1.6, Math.abs(to - from) * 0.4);
  arrowHead(pen, { x: from, y }, { direction: { x: from - to, y: 0 }, lengthMm, colour: '#000000' });
  arrowHead(pen, { x: to, y }, { direction: { x: to - from, y: 0 }, lengthMm, colour: '#000000' });
  pen.text({ x: (from + to) / 2, y: y + 0.8 }, words, { ...WORDS, anchor: 'middle' });
}
