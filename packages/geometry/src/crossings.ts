import { type Bounds, pieceBounds } from './contour-measure.ts';
import type { Contour, Point } from './outline.ts';
import { carrierOf, carriersMeet, insideSweep } from './piece-meeting.ts';
import { contourPieces, type Piece } from './pieces.ts';

/** Pieces meet properly when both are crossed this far from their ends, mm. */
const MARGIN = 1e-6;

/** Where a contour crosses or touches itself between corners; empty for a simple contour. */
export function selfCrossings(contour: Contour): readonly Point[] {
  return crossings(contourPieces(contour).map(boxed), undefined);
}

/** Where two contours cross. */
export function contourCrossings(a: Contour, b: Contour): readonly Point[] {
  return crossings(contourPieces(a).map(boxed), contourPieces(b).map(boxed));
}

interface Boxed {
  readonly piece: Piece;
  readonly box: Bounds;
}
const boxed = (piece: Piece): Boxed => ({ piece, box: pieceBounds(piece) });

/** Sweeps by x, so that only pieces whose boxes overlap are met. Without `others` a list is met with itself. */
function crossings(list: readonly Boxed[], others: readonly Boxed[] | undefined): readonly Point[] {
  const found: Point[] = [];
  const sorted = [
    ...list.map((b) => ({ ...b, first: true })),
    ...(others ?? []).map((b) => ({ ...b, first: false })),
  ].sort((a, b) => a.box.minX - b.box.minX);
  let open: typeof sorted = [];
  for (const here of sorted) {
    open = open.filter((b) => b.box.maxX >= here.box.minX - MARGIN);
    for (const there of open)
      if ((others === undefined || here.first !== there.first) && boxesMeet(here.box, there.box))
        found.push(...piecesCross(here.piece, there.piece));
    open.push(here);
  }
  return found;
}

function boxesMeet(a: Bounds, b: Bounds): boolean {
  return (
    a.minY <= b.maxY + MARGIN && b.minY <= a.maxY + MARGIN && a.minX <= b.maxX + MARGIN && b.minX <= a.maxX + MARGIN
  );
}

/** Common points of two pieces that are an end of neither, or the middle of what two collinear pieces share. */
function piecesCross(a: Piece, b: Piece): readonly Point[] {
  const meeting = carriersMeet(carrierOf(a), carrierOf(b));
  if (meeting.length > 0) return meeting.filter((p) => !endOfBoth(p, a, b) && onPiece(a, p) && onPiece(b, p));
  return a.kind === 'line' && b.kind === 'line' ? sharedStretch(a, b) : [];
}

/** Two pieces of one contour meet at a common corner by right, even when rounding puts their lines' meeting beside it. */
function endOfBoth(p: Point, a: Piece, b: Piece): boolean {
  const near = (q: Point): boolean => Math.hypot(p.x - q.x, p.y - q.y) <= MARGIN;
  return (near(a.from) || near(a.to)) && (near(b.from) || near(b.to));
}

function onPiece(piece: Piece, p: Point): boolean {
  if (piece.kind === 'arc') {
    const angleRad = Math.atan2(p.y - piece.centre.y, p.x - piece.centre.x);
    return insideSweep(piece, { angleRad, marginRad: -MARGIN / piece.radiusMm });
  }
  const [dx, dy] = [piece.to.x - piece.from.x, piece.to.y - piece.from.y];
  const length = Math.hypot(dx, dy);
  const along = ((p.x - piece.from.x) * dx + (p.y - piece.from.y) * dy) / length;
  return along >= -MARGIN && along <= length + MARGIN;
}

/** Parallel lines on one another: the middle of the stretch both cover. */
function sharedStretch(a: Extract<Piece, { kind: 'line' }>, b: Extract<Piece, { kind: 'line' }>): readonly Point[] {
  const [dx, dy] = [a.to.x - a.from.x, a.to.y - a.from.y];
  const length = Math.hypot(dx, dy);
  if (length === 0) return [];
  const place = (p: Point): { along: number; off: number } => ({
    along: ((p.x - a.from.x) * dx + (p.y - a.from.y) * dy) / length,
    off: ((p.x - a.from.x) * dy - (p.y - a.from.y) * dx) / length,
  });
  const [from, to] = [place(b.from), place(b.to)];
  if (Math.abs(from.off) > MARGIN || Math.abs(to.off) > MARGIN) return [];
  const low = Math.max(0, Math.min(from.along, to.along));
  const high = Math.min(length, Math.max(from.along, to.along));
  if (high - low <= MARGIN) return [];
  const middle = (low + high) / 2 / length;
  return [{ x: a.from.x + middle * dx, y: a.from.y + middle * dy }];
}
