import { arcCovers } from './arc.ts';
import type { Point } from './outline.ts';
import type { Piece } from './pieces.ts';

/** An endless line, or a whole circle: what a piece of a contour lies on. */
export type Carrier =
  | { readonly kind: 'line'; readonly through: Point; readonly direction: Point }
  | { readonly kind: 'circle'; readonly centre: Point; readonly radiusMm: number };

/** The endless line or whole circle that a piece lies on. */
export function carrierOf(piece: Piece): Carrier {
  if (piece.kind === 'arc') return { kind: 'circle', centre: piece.centre, radiusMm: piece.radiusMm };
  const direction = { x: piece.to.x - piece.from.x, y: piece.to.y - piece.from.y };
  return { kind: 'line', through: piece.from, direction };
}

/** Points that two carriers share: none, one or two; none when they are parallel or one. */
export function carriersMeet(a: Carrier, b: Carrier): readonly Point[] {
  if (a.kind === 'line') return b.kind === 'line' ? linesMeet(a, b) : lineMeetsCircle(a, b);
  return b.kind === 'line' ? lineMeetsCircle(b, a) : circlesMeet(a, b);
}

type LineCarrier = Extract<Carrier, { kind: 'line' }>;
type CircleCarrier = Extract<Carrier, { kind: 'circle' }>;

function linesMeet(a: LineCarrier, b: LineCarrier): readonly Point[] {
  const across = cross(a.direction, b.direction);
  const scale = Math.hypot(a.direction.x, a.direction.y) * Math.hypot(b.direction.x, b.direction.y);
  if (Math.abs(across) <= 1e-12 * scale) return [];
  return [along(a, cross(minus(b.through, a.through), b.direction) / across)];
}

/** Touching counts as meeting within 1 nm, at the foot of the perpendicular. */
function lineMeetsCircle(line: LineCarrier, circle: CircleCarrier): readonly Point[] {
  const length = Math.hypot(line.direction.x, line.direction.y);
  const unit = { x: line.direction.x / length, y: line.direction.y / length };
  const to = minus(circle.centre, line.through);
  const foot = to.x * unit.x + to.y * unit.y;
  return halfChord(circle.radiusMm, cross(unit, to)).map((half) =>
    along({ through: line.through, direction: unit }, foot + half),
  );
}

function circlesMeet(a: CircleCarrier, b: CircleCarrier): readonly Point[] {
  const to = minus(b.centre, a.centre);
  const apart = Math.hypot(to.x, to.y);
  if (apart <= 1e-9) return [];
  const foot = (apart * apart + a.radiusMm ** 2 - b.radiusMm ** 2) / (2 * apart);
  const unit = { x: to.x / apart, y: to.y / apart };
  const middle = along({ through: a.centre, direction: unit }, foot);
  const sideways = { through: middle, direction: { x: -unit.y, y: unit.x } };
  return halfChord(a.radiusMm, foot).map((half) => along(sideways, half));
}

/** ± half the chord at a distance from the centre; 0 alone where it only touches. */
function halfChord(radius: number, distance: number): readonly number[] {
  const away = Math.abs(distance);
  if (away > radius + 1e-6) return [];
  if (away >= radius) return [0];
  const half = Math.sqrt((radius - away) * (radius + away));
  return [-half, half];
}

/** True when `angleRad` lies on the arc, its ends left out by `marginRad`. */
export function insideSweep(
  arc: { readonly startRad: number; readonly sweepRad: number },
  at: { readonly angleRad: number; readonly marginRad: number },
): boolean {
  const sign = Math.sign(arc.sweepRad);
  const left = Math.abs(arc.sweepRad) - 2 * at.marginRad;
  return left > 0 && arcCovers(arc.startRad + sign * at.marginRad, sign * left, at.angleRad);
}

const cross = (a: Point, b: Point): number => a.x * b.y - a.y * b.x;
const minus = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y });
const along = (line: { readonly through: Point; readonly direction: Point }, t: number): Point => ({
  x: line.through.x + t * line.direction.x,
  y: line.through.y + t * line.direction.y,
});
