import { flow, grow, heightOf, type PartDrawing, widthOf } from '@sheetwave/drawings';
import { type Canvas, openCanvas } from './canvas.ts';

/** Narrowest flow of blocks: fits the printable width of an A4 page (ISO 216, 210 mm) together with the margins. */
const LEAST_WIDTH = 190;
const MARGIN = 8;
const GAP = 8;

/**
 * A drawing at 1:1 on a page of its own, with the blocks below it. The page is whole millimetres and as large as it needs to be.
 */
export function sheetOf(sheet: PartDrawing): Canvas {
  const { drawing } = sheet;
  const below = flow(sheet.blocks, Math.max(LEAST_WIDTH, widthOf(drawing)));
  const width = Math.ceil(Math.max(widthOf(drawing), below.widthMm));
  const height = Math.ceil(heightOf(drawing) + GAP + below.heightMm);
  const left = (drawing.minX + drawing.maxX) / 2 - width / 2;
  const inside = { minX: left, maxX: left + width, maxY: drawing.maxY, minY: drawing.maxY - height };
  const canvas = openCanvas({ page: grow(inside, MARGIN), title: sheet.title, about: sheet.about });
  canvas.box(grow(inside, MARGIN), { fill: '#ffffff', stroke: 'none', id: 'paper' });
  const top = drawing.minY - GAP;
  for (const { block, corner } of below.placed) block.draw(canvas, { x: left + corner.x, y: top + corner.y });
  sheet.draw(canvas);
  return canvas;
}
