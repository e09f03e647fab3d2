import type { Pen } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';
import type { Tile, Tiling } from './tiling.ts';

/** Room for the small picture of how the pages lie. */
export const OVERVIEW_MM = { width: 26, height: 24 } as const;

/** The pages as small boxes in their places; the one in hand is filled. `corner` is the upper left one. */
export function drawOverview(pen: Pen, corner: Point, tiling: Tiling, here: Tile | undefined): void {
  const [first] = tiling.tiles;
  if (first === undefined) return;
  const [width, height] = [first.window.maxX - first.window.minX, first.window.maxY - first.window.minY];
  const scale = Math.min(OVERVIEW_MM.width / (tiling.columns * width), OVERVIEW_MM.height / (tiling.rows * height));
  const boxes = pen.group('overview', { stroke: '#000000', width: 0.15, fill: 'none' });
  for (const tile of tiling.tiles) {
    const box: Bounds = {
      minX: corner.x + (tile.column - 1) * width * scale,
      maxX: corner.x + tile.column * width * scale,
      minY: corner.y - tile.row * height * scale,
      maxY: corner.y - (tile.row - 1) * height * scale,
    };
    boxes.box(box, tile === here ? { fill: '#999999' } : {});
  }
}
