import { type Contour, flattenContour, type Placement, type Point, placeContour, turnPoint } from '@sheetwave/geometry';

/** A cut at right angles to the reflector: `origin` in it, `along` (a unit vector) to the right of the drawing. */
export interface SectionPlane {
  readonly origin: Point;
  readonly along: Point;
  /** Half of what is drawn to each side of the origin, mm. */
  readonly left: number;
  readonly right: number;
}

/** A stretch of the cut line, mm from the origin. */
export type Stretch = readonly [from: number, to: number];

/** Distance along the cut line and off it (to its left). */
export function inPlane(plane: SectionPlane, point: Point): { readonly s: number; readonly off: number } {
  const [dx, dy] = [point.x - plane.origin.x, point.y - plane.origin.y];
  const { along } = plane;
  return { s: dx * along.x + dy * along.y, off: dy * along.x - dx * along.y };
}

/** The direction of the resonant length of a patch turned by `turnDeg`: its feed lies against it. */
export const lengthDirection = (turnDeg: number): Point => turnPoint({ x: 0, y: 1 }, turnDeg);

/** Where the cut goes through the region that contours enclose by the even-odd rule, inside the drawn width. */
export function cutStretches(
  plane: SectionPlane,
  contours: readonly Contour[],
  placement: Pick<Placement, 'at' | 'turnDeg'>,
): readonly Stretch[] {
  const crossings = contours.flatMap((contour) => crossingsOf(plane, placeContour(contour, placement)));
  crossings.sort((a, b) => a - b);
  const stretches: Stretch[] = [];
  for (let index = 0; index + 1 < crossings.length; index += 2) {
    const from = Math.max(crossings[index] ?? 0, -plane.left);
    const to = Math.min(crossings[index + 1] ?? 0, plane.right);
    if (to > from) stretches.push([from, to]);
  }
  return stretches;
}

/** The cut line is moved by this much off corners that lie on it, so that each side is crossed or not. */
const OFF_CORNERS_MM = 1e-5;

function crossingsOf(plane: SectionPlane, contour: Contour): readonly number[] {
  const points = flattenContour(contour, { toleranceMm: 0.002 }).map((point) => inPlane(plane, point));
  return points.flatMap((to, index) => {
    const from = points.at(index - 1) ?? to;
    const [a, b] = [from.off - OFF_CORNERS_MM, to.off - OFF_CORNERS_MM];
    return a >= 0 === b >= 0 ? [] : [from.s + ((to.s - from.s) * a) / (a - b)];
  });
}
