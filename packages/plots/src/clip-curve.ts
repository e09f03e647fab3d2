import { clipLine } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';

/** Cuts the piece from one point to the next: the parts of it (0 to 1) that are shown, or undefined. */
type Cut = (from: Point, to: Point) => readonly [number, number] | undefined;

/**
 * The parts of a curve that lie in a box. A point that is not a number breaks the curve; one at infinity is far outside, so that the
 * curve runs off the edge towards it.
 */
export function clipToBox(curve: readonly Point[], box: Bounds): readonly (readonly Point[])[] {
  return clipBy(
    curve.map((point) => finite(point, box)),
    (from, to) => clipLine(from, to, box),
  );
}

/** The parts of a curve that lie in a circle. */
export function clipToCircle(
  curve: readonly Point[],
  circle: { readonly centre: Point; readonly radius: number },
): readonly (readonly Point[])[] {
  return clipBy(curve, (from, to) => withinCircle(from, to, circle));
}

/** Ten heights outside: steep enough to show where the curve goes, near enough to stay exact. */
function finite({ x, y }: Point, box: Bounds): Point {
  const far = 10 * (box.maxY - box.minY);
  if (y === Number.POSITIVE_INFINITY) return { x, y: box.maxY + far };
  if (y === Number.NEGATIVE_INFINITY) return { x, y: box.minY - far };
  return { x, y };
}

function clipBy(curve: readonly Point[], cut: Cut): readonly (readonly Point[])[] {
  const pieces: Point[][] = [];
  let open = false;
  curve.forEach((to, index) => {
    const from = curve[index - 1];
    const part = from && isNumber(from) && isNumber(to) ? cut(from, to) : undefined;
    if (from === undefined || part === undefined) {
      open = false;
      return;
    }
    const [enter, leave] = part;
    if (!open || enter > 0) pieces.push([between(from, to, enter)]);
    pieces.at(-1)?.push(between(from, to, leave));
    open = leave === 1;
  });
  return pieces;
}

const isNumber = ({ x, y }: Point): boolean => Number.isFinite(x) && Number.isFinite(y);

function between(from: Point, to: Point, part: number): Point {
  if (part === 0) return from;
  if (part === 1) return to;
  return { x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part };
}

/** Both roots of |from + t (to - from) - centre| = radius, cut to 0 … 1. */
function withinCircle(
  from: Point,
  to: Point,
  { centre, radius }: { readonly centre: Point; readonly radius: number },
): readonly [number, number] | undefined {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const [px, py] = [from.x - centre.x, from.y - centre.y];
  const a = dx * dx + dy * dy;
  if (a === 0) return undefined;
  const half = px * dx + py * dy;
  const root = half * half - a * (px * px + py * py - radius * radius);
  if (root <= 0) return undefined;
  const [enter, leave] = [(-half - Math.sqrt(root)) / a, (-half + Math.sqrt(root)) / a];
  if (leave <= 0 || enter >= 1) return undefined;
  return [Math.max(0, enter), Math.min(1, leave)];
}
