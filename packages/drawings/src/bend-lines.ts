import type { PlatePart, Point } from '@sheetwave/geometry';
import type { Pen } from './pen.ts';
import { textWidth } from './text-size.ts';

const SIZE = 2;

export interface BendLine {
  readonly from: Point;
  readonly to: Point;
  readonly words: string;
}

/** The bends of a plate, with the words that its marks give each of them in order. */
export function bendLines(part: PlatePart): readonly BendLine[] {
  const marks = part.marks.filter(({ purpose }) => purpose === 'bend');
  const words = marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
  const lines = marks.flatMap((mark) => (mark.kind === 'line' ? [mark] : []));
  return lines.map(({ from, to }, index) => ({ from, to, words: words[index] ?? 'bend' }));
}

/** Dash-dotted lines, with their words along them. */
export function drawBendLines(pen: Pen, part: PlatePart): void {
  const lines = bendLines(part);
  if (lines.length === 0) return;
  const group = pen.group('bend-lines', { stroke: '#000000', width: 0.15, fill: 'none', dash: [6, 1.2, 0.8, 1.2] });
  for (const { from, to } of lines) group.line(from, to);
  const words = pen.group('bend-words');
  for (const line of lines) drawWords(words, line);
}

/** On the inner side of the line, a third of the way along it, where no diagonal passes. */
function drawWords(pen: Pen, { from, to, words }: BendLine): void {
  const upright = Math.abs(to.x - from.x) < 1e-9;
  const length = textWidth(words, { sizeMm: SIZE });
  const along = (a: number, b: number): number => a + (b - a) / 3;
  if (upright) {
    const x = from.x + (from.x < 0 ? SIZE + 0.8 : -0.8);
    pen.text({ x, y: along(from.y, to.y) - length / 2 }, words, { sizeMm: SIZE, upright: false });
  } else {
    const y = from.y + (from.y < 0 ? 0.8 : -SIZE - 0.2);
    pen.text({ x: along(from.x, to.x) - length / 2, y }, words, { sizeMm: SIZE });
  }
}
