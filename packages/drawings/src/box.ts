import type { Bounds, Point } from '@sheetwave/geometry';

/** The smallest box around both. */
export function union(a: Bounds, b: Bounds): Bounds {
  return {
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  };
}

/** The box grown by `by` mm on every side; negative shrinks. */
export function grow(box: Bounds, by: number): Bounds {
  return { minX: box.minX - by, minY: box.minY - by, maxX: box.maxX + by, maxY: box.maxY + by };
}

/** The box with its sides moved out to whole millimetres. */
export function wholeMillimetres(box: Bounds): Bounds {
  return {
    minX: Math.floor(box.minX),
    minY: Math.floor(box.minY),
    maxX: Math.ceil(box.maxX),
    maxY: Math.ceil(box.maxY),
  };
}

/** True when the two share more than an edge. */
export function overlaps(a: Bounds, b: Bounds): boolean {
  return a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;
}

export function centreOf(box: Bounds): Point {
  return { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
}

export const widthOf = (box: Bounds): number => box.maxX - box.minX;
export const heightOf = (box: Bounds): number => box.maxY - box.minY;

/** Square box of half side `half` around a point. */
export function around(centre: Point, half: number): Bounds {
  return grow({ minX: centre.x, minY: centre.y, maxX: centre.x, maxY: centre.y }, half);
}

/** The four sides of a box, each as thick as `by` mm to both sides: so that no letter stands on one. */
export function rimOf({ minX, minY, maxX, maxY }: Bounds, by: number): readonly Bounds[] {
  return [
    { minX, minY, maxX, maxY: minY },
    { minX, minY: maxY, maxX, maxY },
    { minX, minY, maxX: minX, maxY },
    { minX: maxX, minY, maxX, maxY },
  ].map((side) => grow(side, by));
}
