import type { Tabs } from '@sheetwave/design';
import { bounds, pieceLength } from './contour-measure.ts';
import type { Contour, Point, Segment } from './outline.ts';
import { contourPieces, type Piece } from './pieces.ts';

/** A line that is not closed, as a cutter follows it. */
export interface OpenPath {
  readonly start: Point;
  readonly segments: readonly Segment[];
}

export interface TabbedContour {
  /** What is cut, from bridge to bridge, in the direction of the contour. */
  readonly paths: readonly OpenPath[];
  /** The middles of the bridges, on the contour. */
  readonly tabs: readonly Point[];
}

/** Whether a part of this outside is small enough to be held by bridges. */
export function needsTabs(outer: Contour, tabs: Tabs): boolean {
  const box = bounds(outer);
  return tabs.count > 0 && Math.max(box.maxX - box.minX, box.maxY - box.minY) < tabs.belowMm;
}

/**
 * The contour with gaps of `gapMm`, one for each of `count` bridges, spread evenly from the middle of its longest side and kept off its corners
 * by at least half a gap. The gap is what the cutter's centre leaves out: width of the bridge plus the kerf, which eats half its width
 * at either end. Throws when there is no room for them.
 */
export function tabbedContour(
  contour: Contour,
  how: { readonly count: number; readonly gapMm: number },
): TabbedContour {
  const sides = sidesOf(contour);
  const places = tabPlaces(sides, how);
  return {
    paths: places.map((place, i) => pathFrom(sides, place, places[(i + 1) % places.length] ?? place, how)),
    tabs: places.map((place) => pointOn(place.side.piece, place.along)),
  };
}

/** One piece of the contour, and how far along the contour it starts. */
interface Side {
  readonly index: number;
  readonly piece: Piece;
  readonly startMm: number;
  readonly lengthMm: number;
}

/** The middle of a bridge, by the way along its side. */
interface Place {
  readonly side: Side;
  readonly along: number;
}

function sidesOf(contour: Contour): readonly Side[] {
  let startMm = 0;
  return contourPieces(contour).map((piece, index) => {
    const side = { index, piece, startMm, lengthMm: pieceLength(piece) };
    startMm += side.lengthMm;
    return side;
  });
}

function tabPlaces(sides: readonly Side[], { count, gapMm }: { count: number; gapMm: number }): readonly Place[] {
  const roomy = sides.filter((side) => side.lengthMm >= 2 * gapMm);
  const [longest] = [...roomy].sort((a, b) => b.lengthMm - a.lengthMm);
  const total = sides.reduce((sum, side) => sum + side.lengthMm, 0);
  if (longest === undefined) throw new Error(`tabs: no side is twice as long as a gap of ${gapMm} mm`);
  const first = longest.startMm + longest.lengthMm / 2;
  const places = Array.from({ length: count }, (_, k) =>
    nearestPlace(roomy, (first + (k * total) / count) % total, { gapMm, total }),
  );
  const inOrder = [...places].sort((a, b) => wayOf(a) - wayOf(b));
  const tight = inOrder.some((place, i) => {
    const next = inOrder[(i + 1) % inOrder.length] ?? place;
    const apart = (wayOf(next) - wayOf(place) + total) % total;
    return (inOrder.length > 1 || apart > 0) && apart < 2 * gapMm - 1e-9;
  });
  if (tight) throw new Error(`tabs: no room for ${count} gaps of ${gapMm} mm on ${total} mm of edge`);
  return inOrder;
}

const wayOf = (place: Place): number => place.side.startMm + place.along;

/** Nearest, along the contour, to the wished way. */
function nearestPlace(
  roomy: readonly Side[],
  wish: number,
  size: { readonly gapMm: number; readonly total: number },
): Place {
  const options = roomy.map((side): Place => {
    const wished = sideways(wish - side.startMm, side.lengthMm, size.total);
    return { side, along: Math.min(side.lengthMm - size.gapMm, Math.max(size.gapMm, wished)) };
  });
  const away = (place: Place): number => {
    const apart = Math.abs(wayOf(place) - wish) % size.total;
    return Math.min(apart, size.total - apart);
  };
  const [nearest] = [...options].sort((a, b) => away(a) - away(b));
  if (nearest === undefined) throw new Error('tabs: no side has room');
  return nearest;
}

/** A way past the end of a side that is nearer to its start, going round, counts as before it. */
function sideways(along: number, lengthMm: number, total: number): number {
  const round = ((along % total) + total) % total;
  return round - lengthMm > total - round ? round - total : round;
}

function pathFrom(sides: readonly Side[], from: Place, to: Place, { gapMm }: { gapMm: number }): OpenPath {
  const start = pointOn(from.side.piece, from.along + gapMm / 2);
  const segments: Segment[] = [];
  const ownSide = to.side.index === from.side.index && to.along > from.along;
  let index = from.side.index;
  for (let steps = 0; steps <= sides.length && !(ownSide || (steps > 0 && index === to.side.index)); steps += 1) {
    const side = sides[index];
    if (side !== undefined) segments.push(segmentTo(side.piece, side.piece.to));
    index = (index + 1) % sides.length;
  }
  segments.push(segmentTo(to.side.piece, pointOn(to.side.piece, to.along - gapMm / 2)));
  return { start, segments };
}

function segmentTo(piece: Piece, to: Point): Segment {
  return piece.kind === 'line' ? { kind: 'line', to } : { kind: 'arc', to, centre: piece.centre, sense: piece.sense };
}

function pointOn(piece: Piece, along: number): Point {
  const part = along / pieceLength(piece);
  if (piece.kind === 'line')
    return {
      x: piece.from.x + part * (piece.to.x - piece.from.x),
      y: piece.from.y + part * (piece.to.y - piece.from.y),
    };
  const angle = piece.startRad + part * piece.sweepRad;
  return { x: piece.centre.x + piece.radiusMm * Math.cos(angle), y: piece.centre.y + piece.radiusMm * Math.sin(angle) };
}
