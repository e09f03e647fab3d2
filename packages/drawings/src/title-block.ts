import type { Point } from '@sheetwave/geometry';
import type { Block } from './block.ts';
import type { Pen } from './pen.ts';
import { textWidth } from './text-size.ts';

const HEADING = 4;
const SIZE = 2.5;
const LINE = 4.4;
const PAD = 2;
const LABEL_WIDTH = 22;

/** A framed table of what the sheet is: a heading, then one row for each label and value. */
export function titleBlock(title: {
  readonly heading: string;
  readonly rows: readonly (readonly [label: string, value: string])[];
}): Block {
  const values = title.rows.map(([, value]) => LABEL_WIDTH + textWidth(value, { sizeMm: SIZE }));
  const widthMm = Math.ceil(
    Math.max(76, textWidth(title.heading, { sizeMm: HEADING, bold: true }), ...values) + 2 * PAD,
  );
  const heightMm = HEADING + 2 * PAD + title.rows.length * LINE + PAD;
  return { widthMm, heightMm, draw: (pen, corner) => drawTitle(pen, corner, { ...title, widthMm, heightMm }) };
}

function drawTitle(
  pen: Pen,
  corner: Point,
  title: {
    readonly heading: string;
    readonly rows: readonly (readonly [string, string])[];
    readonly widthMm: number;
    readonly heightMm: number;
  },
): void {
  const frame = pen.group('title-block', { stroke: '#000000', width: 0.18, fill: 'none' });
  const { x, y } = corner;
  frame.box({ minX: x, maxX: x + title.widthMm, minY: y - title.heightMm, maxY: y });
  const under = y - HEADING - 2 * PAD;
  frame.line({ x, y: under }, { x: x + title.widthMm, y: under });
  frame.text({ x: x + PAD, y: y - PAD - HEADING * 0.85 }, title.heading, { sizeMm: HEADING, bold: true });
  title.rows.forEach(([label, value], index) => {
    const base = under - (index + 1) * LINE + 0.6;
    frame.text({ x: x + PAD, y: base }, label, { sizeMm: SIZE, colour: '#555555' });
    frame.text({ x: x + PAD + LABEL_WIDTH, y: base }, value, { sizeMm: SIZE });
  });
}
