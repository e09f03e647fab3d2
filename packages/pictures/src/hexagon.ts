import type { Point } from '@sheetwave/geometry';

/** A regular hexagon by its width across flats, counter-clockwise, a corner to the right. */
export function hexagon(centre: Point, acrossMm: number): readonly Point[] {
  const radius = acrossMm / Math.sqrt(3);
  return Array.from({ length: 6 }, (_, corner) => ({
    x: centre.x + radius * Math.cos((corner * Math.PI) / 3),
    y: centre.y + radius * Math.sin((corner * Math.PI) / 3),
  }));
}
