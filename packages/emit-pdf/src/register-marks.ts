import { crossLines, type Pen } from '@sheetwave/drawings';
import type { Corner } from './tiling.ts';

const COLOUR = '#555555';
const WORDS_MM = 2.2;

/** Crosses in circles with a name. Laid over each other, marks of one name are one point of the drawing. */
export function drawRegisterMarks(pen: Pen, corners: readonly Corner[], overlapMm: number): void {
  const reach = Math.min(4.5, overlapMm / 2 - 0.3);
  const radiusMm = reach * 0.7;
  const marks = pen.group('register-marks', { stroke: COLOUR, width: 0.12, fill: 'none' });
  for (const { name, at } of corners) {
    marks.circle(at, radiusMm);
    marks.lines(crossLines(at, reach));
    marks.text({ x: at.x + 0.5, y: at.y + 0.5 }, name, { sizeMm: Math.min(WORDS_MM, radiusMm * 0.7), colour: COLOUR });
  }
}
