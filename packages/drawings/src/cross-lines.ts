import type { Point } from '@sheetwave/geometry';

/** The two strokes of a cross. */
export function crossLines(centre: Point, half: number): readonly (readonly [Point, Point])[] {
  const { x, y } = centre;
  return [
    [
      { x: x - half, y },
      { x: x + half, y },
    ],
    [
      { x, y: y - half },
      { x, y: y + half },
    ],
  ];
}
