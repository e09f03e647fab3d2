import { type BoxGrid, grownBox } from './box-grid.ts';
import { pieceBounds } from './contour-measure.ts';
import type { Contour, Point, Segment } from './outline.ts';
import { type Carrier, carrierOf, carriersMeet } from './piece-meeting.ts';
import { contourPieces, type Piece } from './pieces.ts';

/** How far a corner may lie off the pieces it came from, mm. */
const OFF = 3e-5;
/** How far a corner may move: where a line touches an arc a small error across becomes a larger one along. */
const SLIDE = 0.05;

/**
 * The contour with its corners where the pieces it was cut from really meet: other programs' unions round them to 10 or 1000 pm.
 * A corner stays where no two of those pieces meet near it.
 */
export function exactCorners(contour: Contour, from: BoxGrid<Piece>): Contour {
  if (contour.kind === 'circle') return contour;
  const pieces = contourPieces(contour);
  const carriers = pieces.map((piece) => sourceCarrier(piece, from));
  const corners = pieces.map((piece, i) => {
    const before = (i + pieces.length - 1) % pieces.length;
    return meeting(carriers[before], carriers[i], piece.from);
  });
  const [start] = corners;
  if (start === undefined) return contour;
  const segments = pieces.map((piece, i): Segment => {
    const to = corners[(i + 1) % corners.length] ?? start;
    if (piece.kind === 'line') return { kind: 'line', to };
    const carrier = carriers[i];
    const centre = carrier?.kind === 'circle' ? carrier.centre : piece.centre;
    return { kind: 'arc', to, centre, sense: piece.sense };
  });
  return { kind: 'path', start, segments };
}

function meeting(before: Carrier | undefined, after: Carrier | undefined, near: Point): Point {
  if (before === undefined || after === undefined) return near;
  const away = (p: Point): number => Math.hypot(p.x - near.x, p.y - near.y);
  const [nearest] = [...carriersMeet(before, after)].sort((p, q) => away(p) - away(q));
  return nearest !== undefined && away(nearest) <= SLIDE ? nearest : near;
}

/** What the piece was cut from: the line or circle that its ends are nearest to. */
function sourceCarrier(piece: Piece, from: BoxGrid<Piece>): Carrier | undefined {
  let best: { carrier: Carrier; off: number } | undefined;
  for (const source of from.near(grownBox(pieceBounds(piece), OFF))) {
    const off = offSource(piece, source);
    if (off <= OFF && (best === undefined || off < best.off)) best = { carrier: carrierOf(source), off };
  }
  return best?.carrier;
}

function offSource(piece: Piece, source: Piece): number {
  if (piece.kind === 'arc' && source.kind === 'arc') {
    const { centre } = source;
    const apart = Math.hypot(piece.centre.x - centre.x, piece.centre.y - centre.y);
    return apart + Math.abs(piece.radiusMm - source.radiusMm);
  }
  if (piece.kind === 'arc' || source.kind === 'arc') return Number.POSITIVE_INFINITY;
  const [dx, dy] = [source.to.x - source.from.x, source.to.y - source.from.y];
  const length = Math.hypot(dx, dy);
  const off = (p: Point): number => Math.abs((p.x - source.from.x) * dy - (p.y - source.from.y) * dx) / length;
  return Math.max(off(piece.from), off(piece.to));
}
