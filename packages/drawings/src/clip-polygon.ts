import type { Bounds, Point } from '@sheetwave/geometry';

/**
 * The part of a polygon inside a convex one, both counter-clockwise (Sutherland and Hodgman, Communications of the ACM 17,
 * 1974, p. 32). A polygon that falls apart stays joined by lines without area, which a fill does not show.
 */
export function clipPolygon(subject: readonly Point[], convex: readonly Point[]): readonly Point[] {
  let inside = subject;
  convex.forEach((from, index) => {
    const to = convex[(index + 1) % convex.length];
    if (to !== undefined) inside = clipByLine(inside, from, to);
  });
  return inside;
}

function clipByLine(subject: readonly Point[], from: Point, to: Point): readonly Point[] {
  const side = (point: Point): number => (to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x);
  return subject.flatMap((point, index): readonly Point[] => {
    const before = subject.at(index - 1) ?? point;
    const [here, there] = [side(point), side(before)];
    const crossing = here >= 0 !== there >= 0 ? [between(before, point, there / (there - here))] : [];
    return here >= 0 ? [...crossing, point] : crossing;
  });
}

/** The part of a straight line inside a box, or undefined (Liang and Barsky, ACM Transactions on Graphics 3, 1984, p. 1). */
export function clipLine(from: Point, to: Point, box: Bounds): readonly [number, number] | undefined {
  let [enter, leave] = [0, 1];
  const bounds: readonly (readonly [number, number])[] = [
    [from.x - to.x, from.x - box.minX],
    [to.x - from.x, box.maxX - from.x],
    [from.y - to.y, from.y - box.minY],
    [to.y - from.y, box.maxY - from.y],
  ];
  for (const [slope, room] of bounds) {
    if (slope === 0 && room < 0) return undefined;
    if (slope < 0) enter = Math.max(enter, room / slope);
    if (slope > 0) leave = Math.min(leave, room / slope);
  }
  return enter < leave ? [enter, leave] : undefined;
}

function between<P extends Point>(from: P, to: P, part: number): { x: number; y: number } {
  return { x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part };
}

/** Corners of a box, counter-clockwise from the lower left. */
export function boxCorners(box: Bounds): readonly Point[] {
  return [
    { x: box.minX, y: box.minY },
    { x: box.maxX, y: box.minY },
    { x: box.maxX, y: box.maxY },
    { x: box.minX, y: box.maxY },
  ];
}
