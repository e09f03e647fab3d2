import { grow, union } from '@sheetwave/drawings';
import type { PlanFigure } from '../document.ts';
import {
  boxOf,
  drawPointers,
  LINE,
  METAL,
  OTHER_METAL,
  PLASTIC,
  type Pointer,
  pointersBox,
  THIN,
  WORDS,
} from './sketch.ts';

/** A resistance meter between pin and shell of the connector. */
export function meterSketch(id: string, reading: string): PlanFigure {
  const pointers: readonly Pointer[] = [
    { words: 'pin of the connector', at: { x: 84, y: 22 }, to: { x: 72, y: 18 } },
    { words: 'shell, jacket and reflector', at: { x: 84, y: 10 }, to: { x: 74, y: 11.5 } },
  ];
  return {
    id,
    caption: `Meter between pin and shell of the connector: ${reading}.`,
    alt: `A resistance meter with one lead on the pin of the connector and one on its shell; it should read: ${reading}.`,
    box: grow(union(boxOf(0, 0, 80, 32), pointersBox(pointers)), 1),
    toScale: false,
    draw: (pen) => {
      pen.box(boxOf(0, 4, 34, 30), LINE);
      pen.box(boxOf(3, 19, 31, 28), PLASTIC);
      pen.text({ x: 17, y: 22.2 }, reading, { ...WORDS, sizeMm: reading.length > 12 ? 2 : 2.6, anchor: 'middle' });
      pen.circle({ x: 10, y: 10 }, 2, THIN);
      pen.circle({ x: 24, y: 10 }, 2, THIN);
      pen.polyline(
        [
          { x: 24, y: 10 },
          { x: 44, y: 24 },
          { x: 58, y: 18 },
        ],
        LINE,
      );
      pen.polyline(
        [
          { x: 10, y: 10 },
          { x: 42, y: 5 },
          { x: 62, y: 11 },
        ],
        LINE,
      );
      pen.box(boxOf(60, 10, 76, 13), METAL);
      pen.box(boxOf(60, 23, 76, 26), METAL);
      pen.box(boxOf(57, 17.2, 74, 18.8), OTHER_METAL);
      drawPointers(pen, pointers);
    },
  };
}
