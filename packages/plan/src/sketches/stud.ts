import type { Spacer } from '@sheetwave/design';
import { grow, plain, union } from '@sheetwave/drawings';
import type { Trim } from '@sheetwave/geometry';
import type { PlanFigure } from '../document.ts';
import { boxOf, drawPointers, drawSpan, LINE, METAL, OTHER_METAL, type Pointer, pointersBox } from './sketch.ts';

const SCALE = 4;

/** A spacer lying on its side, with what comes off its stud. */
export function studSketch(spacer: Spacer, trim: Trim): PlanFigure {
  const [body, stud, half, thread] = [
    spacer.bodyMm,
    spacer.studMm,
    spacer.acrossMm / 2,
    Number(spacer.thread.slice(1)) / 2,
  ];
  const keep = stud - trim.byMm;
  const s = (value: number): number => value * SCALE;
  const pointers: readonly Pointer[] = [
    {
      words: 'saw off, file square, run a nut over the end',
      at: { x: s(stud) + 4, y: s(half) + 6 },
      to: { x: s(keep), y: s(thread) },
    },
  ];
  const box = boxOf(-s(body), -s(half) - 9, s(stud), s(half) + 10);
  return {
    id: `sketch-stud-${trim.part}`,
    caption: `Stud of ${spacer.label}: ${plain(keep)} mm stay, ${plain(trim.byMm)} mm come off. ${SCALE}:1.`,
    alt: `A spacer with a stud of ${plain(stud)} millimetres; ${plain(trim.byMm)} are cut off its end and ${plain(keep)} stay.`,
    box: grow(union(box, pointersBox(pointers)), 1),
    toScale: true,
    draw: (pen) => {
      pen.box(boxOf(-s(body), -s(half), 0, s(half)), METAL);
      pen.box(boxOf(0, -s(thread), s(keep), s(thread)), OTHER_METAL);
      pen.box(boxOf(s(keep), -s(thread), s(stud), s(thread)), { ...LINE, dash: [1, 0.8] });
      pen.line({ x: s(keep), y: -s(thread) - 2 }, { x: s(keep), y: s(thread) + 2 }, { ...LINE, width: 0.5 });
      drawSpan(pen, { from: 0, to: s(keep), y: -s(half) - 3, edgeY: -s(thread), words: plain(keep) });
      drawSpan(pen, { from: s(keep), to: s(stud), y: -s(half) - 8, edgeY: -s(thread), words: plain(trim.byMm) });
      drawPointers(pen, pointers);
    },
  };
}
