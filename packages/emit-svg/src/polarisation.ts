import type { Pen } from '@sheetwave/drawings';
import { around, arrowHead, textBox, union } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';
import { ACCENT, INK } from './palette.ts';
import type { View } from './top-view.ts';

const POLARISATION_SIZE = 2.8;

function polarisationPlace(view: View): { readonly centre: Point; readonly words: string } {
  const { orientation } = view.assembly.design.lattice;
  return { centre: { x: view.reflector.minX - 30, y: view.reflector.maxY - 12 }, words: `E field ${orientation}` };
}

function wordsUnderArrow(view: View, centre: Point): Point {
  return { x: centre.x, y: centre.y - (view.assembly.design.lattice.orientation === 'vertical' ? 15 : 6) };
}

/** The box of the arrow with its words. */
export function polarisationBox(view: View): Bounds {
  const { centre, words } = polarisationPlace(view);
  const text = textBox(words, wordsUnderArrow(view, centre), { sizeMm: POLARISATION_SIZE, anchor: 'middle' });
  return union(around(centre, 12), text);
}

/** A double arrow along the electric field. */
export function drawPolarisation(pen: Pen, view: View): void {
  const { centre, words } = polarisationPlace(view);
  const upright = view.assembly.design.lattice.orientation === 'vertical';
  const direction = upright ? { x: 0, y: 1 } : { x: 1, y: 0 };
  const end = (sign: number): Point => ({
    x: centre.x + sign * direction.x * 10,
    y: centre.y + sign * direction.y * 10,
  });
  const back = (sign: number): Point => ({
    x: centre.x + sign * direction.x * 8,
    y: centre.y + sign * direction.y * 8,
  });
  const group = pen.group('polarisation', { stroke: ACCENT, width: 0.5, fill: 'none' });
  group.line(back(-1), back(1));
  for (const sign of [-1, 1])
    arrowHead(group, end(sign), {
      direction: { x: direction.x * sign, y: direction.y * sign },
      lengthMm: 3,
      colour: ACCENT,
    });
  group.text(wordsUnderArrow(view, centre), words, { sizeMm: POLARISATION_SIZE, anchor: 'middle', colour: INK });
}
