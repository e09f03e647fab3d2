import { arcCovers } from './arc.ts';
import type { Contour, Outline, Point } from './outline.ts';
import { type ArcPiece, contourPieces, type LinePiece, type Piece } from './pieces.ts';

/** The box around a shape, in mm. */
export interface Bounds {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/**
 * Enclosed area in mm², exact for lines and arcs: positive counter-clockwise, negative clockwise. A circle is positive.
 * Green's theorem, ½∮(x dy − y dx), piece by piece.
 */
export function signedArea(contour: Contour): number {
  return sum(contourPieces(contour), pieceArea);
}

/** Length of the contour in mm, exact for lines and arcs. */
export function perimeter(contour: Contour): number {
  return sum(contourPieces(contour), pieceLength);
}

/** The box around a contour, with the outermost points of its arcs. Throws when the contour has no piece. */
export function bounds(contour: Contour): Bounds {
  const points = contourPieces(contour).flatMap(extremePoints);
  return boundsOfPoints(points);
}

/** The box around one piece, with the outermost points of an arc. */
export function pieceBounds(piece: Piece): Bounds {
  return boundsOfPoints(extremePoints(piece));
}

/** The box around points. Throws when there are none. */
export function boundsOfPoints(points: readonly Point[]): Bounds {
  if (points.length === 0) throw new Error('no points: nothing to put a box around');
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    minX = Math.min(minX, x);
    minY = Math.min(minY, y);
    maxX = Math.max(maxX, x);
    maxY = Math.max(maxY, y);
  }
  return { minX, minY, maxX, maxY };
}

/**
 * Centre of gravity of the enclosed area. Throws when the area is zero.
 * Triangles about the origin plus circular segments, whose first moment is ⅔ r³ sin³(θ/2) along the bisector.
 */
export function centroid(contour: Contour): Point {
  const pieces = contourPieces(contour);
  const area = sum(pieces, pieceArea);
  if (area === 0) throw new Error('a contour without area has no centroid');
  return {
    x: sum(pieces, (p) => pieceMoment(p).x) / area,
    y: sum(pieces, (p) => pieceMoment(p).y) / area,
  };
}

/** Area of material in mm²: inside the outer contour, less cut-outs and holes, which must not overlap one another. */
export function outlineArea(outline: Outline): number {
  const cut = outline.cutouts.reduce((total, cutout) => total + Math.abs(signedArea(cutout)), 0);
  const drilled = outline.holes.reduce((total, hole) => total + (Math.PI * hole.diameterMm ** 2) / 4, 0);
  return Math.abs(signedArea(outline.outer)) - cut - drilled;
}

/** True when the point lies inside the contour, whichever way it runs, or within 1 nm of its line. */
export function contains(contour: Contour, point: Point): boolean {
  return piecesContain(contourPieces(contour), point);
}

/** The same for the pieces of one contour, for many points. */
export function piecesContain(pieces: readonly Piece[], point: Point): boolean {
  if (sum(pieces, (piece) => pieceWinding(piece, point)) !== 0) return true;
  return pieces.some((piece) => distanceToPiece(piece, point) <= 1e-6);
}

/** Shortest distance from the point to the line of the contour, in mm; never negative. Throws when the contour has no piece. */
export function distanceToContour(contour: Contour, point: Point): number {
  const distances = contourPieces(contour).map((piece) => distanceToPiece(piece, point));
  if (distances.length === 0) throw new Error('a contour without pieces has no distance to a point');
  return Math.min(...distances);
}

/** Shortest distance from a point to one piece, in mm. */
export function distanceToPiece(piece: Piece, point: Point): number {
  return piece.kind === 'line' ? distanceToLine(piece, point) : distanceToArc(piece, point);
}

/** Length of one piece, in mm. */
export function pieceLength(piece: Piece): number {
  if (piece.kind === 'arc') return piece.radiusMm * Math.abs(piece.sweepRad);
  return distance(piece.from, piece.to);
}

function pieceArea(piece: Piece): number {
  const { from, to } = piece;
  if (piece.kind === 'line') return (from.x * to.y - from.y * to.x) / 2;
  const { centre, radiusMm, sweepRad } = piece;
  return (centre.x * (to.y - from.y) - centre.y * (to.x - from.x) + radiusMm ** 2 * sweepRad) / 2;
}

function pieceMoment(piece: Piece): Point {
  const { from, to } = piece;
  const triangle = (from.x * to.y - from.y * to.x) / 6;
  const chord = { x: triangle * (from.x + to.x), y: triangle * (from.y + to.y) };
  if (piece.kind === 'line') return chord;
  const { centre, radiusMm, sweepRad, startRad } = piece;
  const segmentArea = (radiusMm ** 2 * (sweepRad - Math.sin(sweepRad))) / 2;
  const reach = (2 / 3) * radiusMm ** 3 * Math.sin(sweepRad / 2) ** 3;
  const middle = startRad + sweepRad / 2;
  return {
    x: chord.x + centre.x * segmentArea + reach * Math.cos(middle),
    y: chord.y + centre.y * segmentArea + reach * Math.sin(middle),
  };
}

function extremePoints(piece: Piece): readonly Point[] {
  if (piece.kind === 'line') return [piece.from, piece.to];
  const { centre, radiusMm: r, startRad, sweepRad } = piece;
  const quarters = [
    { angle: 0, x: centre.x + r, y: centre.y },
    { angle: Math.PI / 2, x: centre.x, y: centre.y + r },
    { angle: Math.PI, x: centre.x - r, y: centre.y },
    { angle: -Math.PI / 2, x: centre.x, y: centre.y - r },
  ];
  return [piece.from, piece.to, ...quarters.filter((q) => arcCovers(startRad, sweepRad, q.angle))];
}

/**
 * How often the piece winds about the point: crossings of its chord with the ray to the right, and one more between chord and arc.
 * A point on the chord counts as a hair to the right of it and above, for both rules alike.
 */
function pieceWinding(piece: Piece, point: Point): number {
  const { from, to } = piece;
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const across = dx * (point.y - from.y) - dy * (point.x - from.x);
  const onLeft = across > 0 || (across === 0 && (dy < 0 || (dy === 0 && dx > 0)));
  const up = from.y <= point.y && to.y > point.y && onLeft;
  const down = from.y > point.y && to.y <= point.y && !onLeft;
  const chord = up ? 1 : down ? -1 : 0;
  if (piece.kind === 'line' || distance(point, piece.centre) >= piece.radiusMm) return chord;
  if (Math.abs(piece.sweepRad) >= 2 * Math.PI) return piece.sense === 'ccw' ? 1 : -1;
  if (piece.sense === 'ccw') return onLeft ? chord : chord + 1;
  return onLeft ? chord - 1 : chord;
}

function distanceToLine(piece: LinePiece, point: Point): number {
  const { from, to } = piece;
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const squared = dx * dx + dy * dy;
  const along = squared === 0 ? 0 : ((point.x - from.x) * dx + (point.y - from.y) * dy) / squared;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(point.x - from.x - t * dx, point.y - from.y - t * dy);
}

function distanceToArc(piece: ArcPiece, point: Point): number {
  const { centre, radiusMm, startRad, sweepRad } = piece;
  const angle = Math.atan2(point.y - centre.y, point.x - centre.x);
  if (arcCovers(startRad, sweepRad, angle)) return Math.abs(distance(point, centre) - radiusMm);
  return Math.min(distance(point, piece.from), distance(point, piece.to));
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

function sum<T>(items: readonly T[], value: (item: T) => number): number {
  return items.reduce((total, item) => total + value(item), 0);
}
