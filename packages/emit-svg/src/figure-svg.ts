import type { Figure } from '@sheetwave/drawings';
import { openCanvas } from './canvas.ts';

/** A figure as an SVG file of its size, on white. The same figure gives the same bytes. */
export function figureSvg(figure: Figure): Uint8Array {
  const page = { minX: 0, minY: 0, maxX: figure.widthMm, maxY: figure.heightMm };
  const canvas = openCanvas({ page, title: figure.title, about: figure.about });
  canvas.box(page, { fill: '#ffffff', stroke: 'none', id: 'paper' });
  figure.draw(canvas);
  return canvas.bytes();
}
