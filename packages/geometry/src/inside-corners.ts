import { pieceLength, signedArea } from './contour-measure.ts';
import { selfCrossings } from './crossings.ts';
import { offsetPiece } from './offset-piece.ts';
import type { Contour, Point, Segment } from './outline.ts';
import { carriersMeet } from './piece-meeting.ts';
import { contourPieces, type Piece } from './pieces.ts';
import { travelAt, turnAt } from './turn-at.ts';

export interface TreatedCorners {
  readonly contour: Contour;
  /** Corners that were given an arc. */
  readonly changed: number;
  /** Sharp inside corners between pieces too short for it, left as they are. */
  readonly left: number;
}

/** A smaller turn is rounding, not a corner. */
const LEAST_TURN_RAD = 1e-3;
/** Below 30° a relief would hardly leave its walls: such a corner is rounded. */
const LEAST_RELIEF_RAD = Math.PI / 6;

/**
 * The contour with an arc of this radius, tangent to both sides, in each of its sharp inside corners: what a cutter of that radius leaves.
 * Material lies to the left of the contour (outsides run counter-clockwise, cut-outs clockwise), so inside corners turn right.
 * Arcs that are there already stay. Throws when the result crosses itself.
 */
export function roundInsideCorners(contour: Contour, radiusMm: number): TreatedCorners {
  return treatCorners(contour, (before, after) => fillet(before, after, radiusMm));
}

/**
 * The contour with a dog-bone relief in each sharp inside corner between straight sides: an arc of this radius about a point on the bisector
 * that runs through the corner itself, so that a square corner of another part fits. It opens the corner by 2 r cos φ along each
 * side, φ being half the angle between the sides. Corners at arcs, and turns below 30°, are rounded instead.
 * Throws when a relief breaks into another part of the contour.
 */
export function relieveInsideCorners(contour: Contour, radiusMm: number): TreatedCorners {
  return treatCorners(contour, (before, after) => {
    const straight = before.kind === 'line' && after.kind === 'line' && -turnAt(before, after) >= LEAST_RELIEF_RAD;
    return straight ? relief(before, after, radiusMm) : fillet(before, after, radiusMm);
  });
}

/** An arc in place of a corner, and how much of both sides it takes. */
interface Corner {
  readonly from: Point;
  readonly arc: Extract<Segment, { kind: 'arc' }>;
  readonly ofBefore: number;
  readonly ofAfter: number;
}

type Treatment = (before: Piece, after: Piece) => Corner | undefined;

function treatCorners(contour: Contour, treat: Treatment): TreatedCorners {
  if (contour.kind === 'circle') return { contour, changed: 0, left: 0 };
  const pieces = contourPieces(contour);
  const sharp = pieces.map((piece, i) => turnAt(piece, next(pieces, i)) < -LEAST_TURN_RAD);
  const corners = thatFit(
    pieces,
    sharp.map((isSharp, i) => (isSharp ? treat(at(pieces, i), next(pieces, i)) : undefined)),
  );
  const changed = corners.filter((corner) => corner !== undefined).length;
  const left = sharp.filter((isSharp) => isSharp).length - changed;
  if (changed === 0) return { contour, changed, left };
  const treated = rebuilt(pieces, corners);
  check(contour, treated);
  return { contour: treated, changed, left };
}

/** In order, each corner for which both its sides still have room. */
function thatFit(pieces: readonly Piece[], corners: readonly (Corner | undefined)[]): readonly (Corner | undefined)[] {
  const room = pieces.map(pieceLength);
  return corners.map((corner, i) => {
    const j = (i + 1) % pieces.length;
    const [before, after] = [room[i] ?? 0, room[j] ?? 0];
    // Equal sides may be used up by their two corners; a nanometre for rounding.
    if (corner === undefined || corner.ofBefore > before + 1e-6 || corner.ofAfter > after + 1e-6) return undefined;
    room[i] = before - corner.ofBefore;
    room[j] = after - corner.ofAfter;
    return corner;
  });
}

function rebuilt(pieces: readonly Piece[], corners: readonly (Corner | undefined)[]): Contour {
  const start = corners.at(-1)?.arc.to ?? at(pieces, 0).from;
  const segments: Segment[] = [];
  let here = start;
  const go = (segment: Segment): void => {
    if (Math.hypot(segment.to.x - here.x, segment.to.y - here.y) <= 1e-6) return;
    segments.push(segment);
    here = segment.to;
  };
  for (const [i, piece] of pieces.entries()) {
    const corner = corners[i];
    go(segmentTo(piece, corner?.from ?? piece.to));
    if (corner !== undefined) go(corner.arc);
  }
  const last = segments.pop();
  if (last === undefined) throw new Error('inside corners: nothing of the contour is left');
  return { kind: 'path', start, segments: [...segments, { ...last, to: start }] };
}

function segmentTo(piece: Piece, to: Point): Segment {
  return piece.kind === 'line' ? { kind: 'line', to } : { kind: 'arc', to, centre: piece.centre, sense: piece.sense };
}

/** The centre lies at the radius from both sides, to the right of them: where both, moved to the right, meet. */
function fillet(before: Piece, after: Piece, radiusMm: number): Corner | undefined {
  const [a, b] = [offsetPiece(before, radiusMm), offsetPiece(after, radiusMm)];
  if ((a.kind === 'arc' && a.radiusMm <= 0) || (b.kind === 'arc' && b.radiusMm <= 0)) return undefined;
  const away = (p: Point): number => Math.hypot(p.x - before.to.x, p.y - before.to.y);
  const [centre] = [...carriersMeet(a.carrier, b.carrier)].sort((p, q) => away(p) - away(q));
  if (centre === undefined) return undefined;
  const [from, to] = [footOn(before, centre), footOn(after, centre)];
  const [ofBefore, ofAfter] = [lengthToEnd(before, from), lengthFromStart(after, to)];
  if (ofBefore === undefined || ofAfter === undefined) return undefined;
  return { from, arc: { kind: 'arc', to, centre, sense: 'cw' }, ofBefore, ofAfter };
}

function relief(before: Piece, after: Piece, radiusMm: number): Corner {
  const corner = before.to;
  const back = unit({ x: before.from.x - corner.x, y: before.from.y - corner.y });
  const forth = unit(travelAt(after, corner));
  const bisector = unit({ x: back.x + forth.x, y: back.y + forth.y });
  const chord = 2 * radiusMm * (bisector.x * forth.x + bisector.y * forth.y);
  const along = (direction: Point, by: number): Point => ({
    x: corner.x + by * direction.x,
    y: corner.y + by * direction.y,
  });
  const arc: Corner['arc'] = { kind: 'arc', to: along(forth, chord), centre: along(bisector, radiusMm), sense: 'cw' };
  return { from: along(back, chord), arc, ofBefore: chord, ofAfter: chord };
}

/** The point of the endless line or whole circle nearest to another point. */
function footOn(piece: Piece, p: Point): Point {
  if (piece.kind === 'line') {
    const d = unit(travelAt(piece, piece.from));
    const along = (p.x - piece.from.x) * d.x + (p.y - piece.from.y) * d.y;
    return { x: piece.from.x + along * d.x, y: piece.from.y + along * d.y };
  }
  const out = unit({ x: p.x - piece.centre.x, y: p.y - piece.centre.y });
  return { x: piece.centre.x + piece.radiusMm * out.x, y: piece.centre.y + piece.radiusMm * out.y };
}

const lengthToEnd = (piece: Piece, p: Point): number | undefined => lengthBetween(piece, p, piece.to);
const lengthFromStart = (piece: Piece, p: Point): number | undefined => lengthBetween(piece, piece.from, p);

/** Way along the piece from one of its points to a later one; undefined when the second is not later, or beyond the piece. */
function lengthBetween(piece: Piece, from: Point, to: Point): number | undefined {
  if (piece.kind === 'line') {
    const d = unit(travelAt(piece, piece.from));
    const way = (to.x - from.x) * d.x + (to.y - from.y) * d.y;
    return way > 0 ? way : undefined;
  }
  const angle = (p: Point): number => Math.atan2(p.y - piece.centre.y, p.x - piece.centre.x);
  const turn = (angle(to) - angle(from)) * Math.sign(piece.sweepRad);
  const way = piece.radiusMm * (turn - 2 * Math.PI * Math.floor(turn / (2 * Math.PI)));
  return way > 0 && way <= pieceLength(piece) ? way : undefined;
}

function check(before: Contour, after: Contour): void {
  const crossing = selfCrossings(after)[0];
  if (crossing !== undefined)
    throw new Error(`inside corners: the contour would cross itself at (${crossing.x}, ${crossing.y}) mm`);
  if (Math.sign(signedArea(before)) !== Math.sign(signedArea(after)))
    throw new Error('inside corners: the contour would be turned inside out');
}

function unit(v: Point): Point {
  const length = Math.hypot(v.x, v.y);
  return { x: v.x / length, y: v.y / length };
}

function at<T>(ring: readonly T[], index: number): T {
  const item = ring[index];
  if (item === undefined) throw new Error(`inside corners: no piece ${index}`);
  return item;
}

const next = (pieces: readonly Piece[], i: number): Piece => at(pieces, (i + 1) % pieces.length);
