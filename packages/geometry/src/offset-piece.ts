import type { Sense } from './arc.ts';
import type { Point } from './outline.ts';
import type { Carrier } from './piece-meeting.ts';
import type { Piece } from './pieces.ts';

/** One piece moved sideways, with what its ends were before. */
export type OffsetPiece = {
  readonly original: Piece;
  /** Its ends before they meet their neighbours. */
  readonly from: Point;
  readonly to: Point;
  /** Unit normals to the right of the direction of travel. */
  readonly normalFrom: Point;
  readonly normalTo: Point;
  readonly carrier: Carrier;
} & (
  | { readonly kind: 'line' }
  /** `radiusMm` is zero or less when the arc is gone. */
  | { readonly kind: 'arc'; readonly centre: Point; readonly sense: Sense; readonly radiusMm: number }
);

/** A piece moved to its right by `toRight` mm (to its left below zero). */
export function offsetPiece(piece: Piece, toRight: number): OffsetPiece {
  const [normalFrom, normalTo] = rightNormals(piece);
  const from = shifted(piece.from, normalFrom, toRight);
  const to = shifted(piece.to, normalTo, toRight);
  const ends = { original: piece, from, to, normalFrom, normalTo };
  if (piece.kind === 'line') {
    const direction = { x: -normalFrom.y, y: normalFrom.x };
    return { kind: 'line', ...ends, carrier: { kind: 'line', through: from, direction } };
  }
  const { centre, sense } = piece;
  const radiusMm = piece.radiusMm + (sense === 'ccw' ? toRight : -toRight);
  return { kind: 'arc', ...ends, centre, sense, radiusMm, carrier: { kind: 'circle', centre, radiusMm } };
}

/** True when meeting its neighbours has left nothing of the piece, or less: it would run backwards. */
export function turnedBack(piece: OffsetPiece, from: Point, to: Point): boolean {
  if (piece.kind === 'line') {
    const { normalFrom: n } = piece;
    return (to.x - from.x) * -n.y + (to.y - from.y) * n.x < -1e-9;
  }
  const { original } = piece;
  if (original.kind !== 'arc') return false;
  const sign = Math.sign(original.sweepRad);
  const late = sign * angleBetween(piece.centre, piece.from, from);
  const early = sign * angleBetween(piece.centre, to, piece.to);
  return (Math.abs(original.sweepRad) - late - early) * piece.radiusMm < -1e-9;
}

/** Signed angle from `a` to `b` about the centre, in (−π, π]. */
function angleBetween(centre: Point, a: Point, b: Point): number {
  const [ax, ay, bx, by] = [a.x - centre.x, a.y - centre.y, b.x - centre.x, b.y - centre.y];
  return Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
}

function rightNormals(piece: Piece): readonly [Point, Point] {
  if (piece.kind === 'line') {
    const [dx, dy] = [piece.to.x - piece.from.x, piece.to.y - piece.from.y];
    const length = Math.hypot(dx, dy);
    if (length === 0) throw new Error(`offset: a line of no length at (${piece.from.x}, ${piece.from.y}) mm`);
    const normal = { x: dy / length, y: -dx / length };
    return [normal, normal];
  }
  if (piece.sweepRad === 0) throw new Error(`offset: an arc of no length at (${piece.from.x}, ${piece.from.y}) mm`);
  return [arcNormal(piece.from, piece), arcNormal(piece.to, piece)];
}

/** To the right of a ccw arc is away from its centre. */
function arcNormal(end: Point, arc: { readonly centre: Point; readonly sense: Sense }): Point {
  const [dx, dy] = [end.x - arc.centre.x, end.y - arc.centre.y];
  const reach = Math.hypot(dx, dy) * (arc.sense === 'ccw' ? 1 : -1);
  return { x: dx / reach, y: dy / reach };
}

function shifted(point: Point, normal: Point, by: number): Point {
  return { x: point.x + by * normal.x, y: point.y + by * normal.y };
}
