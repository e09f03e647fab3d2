import { signedArea } from './contour-measure.ts';
import { acuteCorners, checkOffset } from './offset-check.ts';
import { type Joint, joinCarriers, joinCorner } from './offset-joint.ts';
import { type OffsetPiece, offsetPiece, turnedBack } from './offset-piece.ts';
import type { Contour, Point, Segment } from './outline.ts';
import { contourPieces } from './pieces.ts';

export interface OffsetOptions {
  /**
   * What becomes of a corner that points toward the new contour. `sharp` (default) extends its sides until they meet, so that a
   * square stays a square; `round` keeps the exact distance with an arc. A corner that would reach further than
   * four times the distance (an angle below 29°) is rounded in any case.
   */
  readonly corners?: 'sharp' | 'round';
}

/**
 * The contour at a distance from the given one: above zero the enclosed area grows, below zero it shrinks, whichever way the
 * contour runs; it keeps its sense. Lines stay lines and arcs stay arcs about the same centres.
 * A piece that the offset swallows (a fillet with less radius than the distance) goes, and its neighbours meet.
 * The result is checked for closure, crossings, size and area, and against a polygon offset by another method.
 * Throws, with the distance and the reason, when a distance is not finite or nothing right is left: no silent loss.
 */
export function offsetContour(contour: Contour, distanceMm: number, options: OffsetOptions = {}): Contour {
  if (!Number.isFinite(distanceMm)) throw new Error(`offset: the distance is ${distanceMm}, not a finite number`);
  if (distanceMm === 0) return contour;
  if (contour.kind === 'circle') return offsetCircle(contour, distanceMm);
  const corners = options.corners ?? 'sharp';
  const result = offsetPath(contour, distanceMm, corners);
  checkOffset({ contour, result, distanceMm, corners });
  // With acute corners the check of sharp ones is loose; that of the round twin, whose other pieces are the same, never is.
  if (corners === 'sharp' && acuteCorners(contour) > 0) offsetContour(contour, distanceMm, { corners: 'round' });
  return result;
}

function offsetCircle(circle: Extract<Contour, { kind: 'circle' }>, distanceMm: number): Contour {
  const radiusMm = circle.radiusMm + distanceMm;
  if (radiusMm > 0) return { ...circle, radiusMm };
  throw new Error(`offset by ${distanceMm} mm: a circle of radius ${circle.radiusMm} mm disappears`);
}

function offsetPath(contour: Contour, distanceMm: number, corners: 'sharp' | 'round'): Contour {
  const toRight = signedArea(contour) >= 0 ? distanceMm : -distanceMm;
  let pieces = contourPieces(contour).map((piece) => offsetPiece(piece, toRight));
  pieces = pieces.filter((piece) => piece.kind === 'line' || piece.radiusMm > 1e-9);
  for (;;) {
    if (pieces.length < 2) throw new Error(`offset by ${distanceMm} mm: the contour disappears`);
    const joints = pieces.map((piece, i) => joint(piece, at(pieces, i + 1), { distanceMm, toRight, corners }));
    const swallowed = pieces.findIndex((piece, i) => turnedBack(piece, at(joints, i - 1).after, at(joints, i).before));
    if (swallowed < 0) return drawn(pieces, joints, distanceMm);
    pieces = pieces.filter((_, i) => i !== swallowed);
  }
}

function joint(
  before: OffsetPiece,
  after: OffsetPiece,
  how: { readonly distanceMm: number; readonly toRight: number; readonly corners: 'sharp' | 'round' },
): Joint {
  const corner = before.original.to;
  const start = after.original.from;
  const neighbours = corner.x === start.x && corner.y === start.y;
  const found = neighbours ? joinCorner(before, after, how) : joinCarriers(before, after);
  if (found !== undefined) return found;
  throw new Error(
    `offset by ${how.distanceMm} mm: the pieces on both sides of (${start.x}, ${start.y}) mm no longer meet`,
  );
}

function drawn(pieces: readonly OffsetPiece[], joints: readonly Joint[], distanceMm: number): Contour {
  const start = at(joints, -1).after;
  const segments = pieces.flatMap((piece, i): readonly Segment[] => {
    const { before, between } = at(joints, i);
    return [...segmentTo(piece, at(joints, i - 1).after, before), ...between];
  });
  const last = segments.at(-1);
  if (last === undefined) throw new Error(`offset by ${distanceMm} mm: the contour disappears`);
  return { kind: 'path', start, segments: [...segments.slice(0, -1), { ...last, to: start }] };
}

function segmentTo(piece: OffsetPiece, from: Point, to: Point): readonly Segment[] {
  if (Math.hypot(to.x - from.x, to.y - from.y) <= 1e-9) return [];
  if (piece.kind === 'line') return [{ kind: 'line', to }];
  return [{ kind: 'arc', to, centre: piece.centre, sense: piece.sense }];
}

/** Round the ring, from either end. */
function at<T>(ring: readonly T[], index: number): T {
  const item = ring[((index % ring.length) + ring.length) % ring.length];
  if (item === undefined) throw new Error('offset: an empty ring has no members');
  return item;
}
