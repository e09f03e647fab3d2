import { arrowHead, grow, type Pen, union } from '@sheetwave/drawings';
import type { PlanFigure } from '../document.ts';
import { boxOf, drawPointers, LINE, METAL, OTHER_METAL, type Pointer, pointersBox } from './sketch.ts';

const SHEET = boxOf(0, 16, 60, 19);
const POST = boxOf(26, 4, 34, 16);
const PLATE = boxOf(-4, 0, 64, 4);

/** Which way the burr of a patch looks: away from the gap that its spacer sets. */
export function burrSketch(): PlanFigure {
  const pointers: readonly Pointer[] = [
    { words: 'burr side up, toward the sky; filed flat', at: { x: 68, y: 24 }, to: { x: 60, y: 20 } },
    { words: 'smooth side down, flat on the spacer', at: { x: 68, y: 14 }, to: { x: 50, y: 16 } },
    { words: 'reflector: smooth side to the front, burr to the back', at: { x: 68, y: 4 }, to: { x: 58, y: 4 } },
  ];
  return {
    id: 'sketch-burr',
    caption: 'Which side the burr goes, seen from the side; not to scale.',
    alt: 'A sheet on a spacer over the reflector. The side with the burr looks up, away from the reflector; the smooth side lies on the spacer.',
    box: grow(union(pointersBox(pointers), boxOf(-4, -4, 64, 26)), 1),
    toScale: false,
    draw: (pen) => draw(pen, pointers),
  };
}

function draw(pen: Pen, pointers: readonly Pointer[]): void {
  pen.box(PLATE, METAL);
  pen.box(POST, OTHER_METAL);
  pen.box(SHEET, METAL);
  burr(pen, 0, { y: 19, up: 1, lean: 1 });
  burr(pen, 60, { y: 19, up: 1, lean: -1 });
  burr(pen, -4, { y: 0, up: -1, lean: 1 });
  burr(pen, 64, { y: 0, up: -1, lean: -1 });
  pen.line({ x: 12, y: 21 }, { x: 12, y: 26 }, LINE);
  arrowHead(pen, { x: 12, y: 26 }, { direction: { x: 0, y: 1 }, lengthMm: 2, colour: '#000000' });
  drawPointers(pen, pointers);
}

function burr(pen: Pen, x: number, at: { readonly y: number; readonly up: number; readonly lean: number }): void {
  const points = [
    { x, y: at.y },
    { x: x + 0.3 * at.lean, y: at.y + 1.6 * at.up },
    { x: x + 1.2 * at.lean, y: at.y },
  ];
  pen.polygon(points, { fill: '#000000', stroke: 'none' });
}
