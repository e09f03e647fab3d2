import type { Point } from './outline.ts';
import type { Piece } from './pieces.ts';

/** Turn of direction from one piece to the next, radians in (−π, π]; positive to the left. */
export function turnAt(before: Piece, after: Piece): number {
  const a = travelAt(before, before.to);
  const b = travelAt(after, after.from);
  return Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
}

/** Direction of travel along a piece at one of its points, of any length above zero. */
export function travelAt(piece: Piece, at: Point): Point {
  if (piece.kind === 'line') return { x: piece.to.x - piece.from.x, y: piece.to.y - piece.from.y };
  const sign = piece.sense === 'ccw' ? 1 : -1;
  return { x: -sign * (at.y - piece.centre.y), y: sign * (at.x - piece.centre.x) };
}
