import type { Placement, Point3 } from './assembly.ts';
import type { Contour, Hole, Mark, Outline, Point, Segment } from './outline.ts';
import { contourPieces, type Piece } from './pieces.ts';

/** A rigid motion of the plane that keeps left and right apart: any turn and any move. */
type Motion = (point: Point) => Point;

/** The point turned about the origin, counter-clockwise, in degrees; exact for multiples of 90°. */
export function turnPoint(point: Point, degrees: number): Point {
  const { cos, sin } = cosSin(degrees);
  // Adding 0 turns a negative zero into 0.
  return { x: point.x * cos - point.y * sin + 0, y: point.x * sin + point.y * cos + 0 };
}

/** The contour moved by `by`, mm. */
export function moveContour(contour: Contour, by: Point): Contour {
  return mapContour(contour, mover(by));
}

/** The contour turned about the origin, counter-clockwise, in degrees; exact for multiples of 90°. It keeps its sense. */
export function turnContour(contour: Contour, degrees: number): Contour {
  return mapContour(contour, turner(degrees));
}

/**
 * The contour seen from behind: x becomes −x. It is also listed backwards, so that it keeps its sense:
 * what ran counter-clockwise still does.
 */
export function mirrorContour(contour: Contour): Contour {
  const flip = (p: Point): Point => ({ x: 0 - p.x, y: p.y });
  if (contour.kind === 'circle') return { ...contour, centre: flip(contour.centre) };
  // Flipping turns every sense round, and so does running backwards: together they leave it as it was.
  const segments = [...contourPieces(contour)]
    .reverse()
    .map((piece) => segmentBack(piece, piece.kind === 'arc' ? piece.sense : 'ccw'));
  return mapContour({ kind: 'path', start: contour.start, segments }, flip);
}

/** The same curve the other way round. A circle has no direction and stays as it is. */
export function reverseContour(contour: Contour): Contour {
  if (contour.kind === 'circle') return contour;
  const segments = [...contourPieces(contour)]
    .reverse()
    .map((piece) => segmentBack(piece, piece.kind === 'arc' && piece.sense === 'ccw' ? 'cw' : 'ccw'));
  return { kind: 'path', start: contour.start, segments };
}

/** A hole moved by `by`, mm. */
export const moveHole = (hole: Hole, by: Point): Hole => ({ ...hole, centre: mover(by)(hole.centre) });
/** A hole turned about the origin, counter-clockwise. */
export const turnHole = (hole: Hole, degrees: number): Hole => ({ ...hole, centre: turnPoint(hole.centre, degrees) });
/** A hole seen from behind: x becomes −x. */
export const mirrorHole = (hole: Hole): Hole => ({ ...hole, centre: { x: 0 - hole.centre.x, y: hole.centre.y } });

/** A mark moved by `by`, mm. */
export const moveMark = (mark: Mark, by: Point): Mark => mapMark(mark, mover(by));
/** A mark turned about the origin, counter-clockwise. Text stays upright: only its place turns. */
export const turnMark = (mark: Mark, degrees: number): Mark => mapMark(mark, turner(degrees));
/** A mark seen from behind: x becomes −x. Text stays readable: only its place is mirrored. */
export const mirrorMark = (mark: Mark): Mark => mapMark(mark, (p) => ({ x: 0 - p.x, y: p.y }));

/** An outline moved by `by`, mm. */
export function moveOutline(outline: Outline, by: Point): Outline {
  return mapOutline(outline, { contour: (c) => moveContour(c, by), hole: (h) => moveHole(h, by) });
}

/** An outline turned about the origin, counter-clockwise. */
export function turnOutline(outline: Outline, degrees: number): Outline {
  return mapOutline(outline, { contour: (c) => turnContour(c, degrees), hole: (h) => turnHole(h, degrees) });
}

/** An outline seen from behind: x becomes −x; outside and cut-outs keep their senses. */
export function mirrorOutline(outline: Outline): Outline {
  return mapOutline(outline, { contour: mirrorContour, hole: mirrorHole });
}

/** Where a point of a part lies in the antenna: turned about z, then moved. A point without z lies in the part's z = 0. */
export function placePoint(point: Point | Point3, placement: Pick<Placement, 'at' | 'turnDeg'>): Point3 {
  const turned = turnPoint(point, placement.turnDeg);
  const z = 'z' in point ? point.z : 0;
  return { x: turned.x + placement.at.x, y: turned.y + placement.at.y, z: z + placement.at.z };
}

/** A contour of a part in antenna coordinates, seen from in front. */
export function placeContour(contour: Contour, placement: Pick<Placement, 'at' | 'turnDeg'>): Contour {
  return moveContour(turnContour(contour, placement.turnDeg), placement.at);
}

function mapOutline(
  outline: Outline,
  map: { readonly contour: (contour: Contour) => Contour; readonly hole: (hole: Hole) => Hole },
): Outline {
  return {
    outer: map.contour(outline.outer),
    cutouts: outline.cutouts.map(map.contour),
    holes: outline.holes.map(map.hole),
  };
}

function mapContour(contour: Contour, motion: Motion): Contour {
  if (contour.kind === 'circle') return { ...contour, centre: motion(contour.centre) };
  const segments = contour.segments.map((segment): Segment => {
    if (segment.kind === 'line') return { kind: 'line', to: motion(segment.to) };
    return { ...segment, to: motion(segment.to), centre: motion(segment.centre) };
  });
  return { kind: 'path', start: motion(contour.start), segments };
}

function mapMark(mark: Mark, motion: Motion): Mark {
  if (mark.kind === 'line') return { ...mark, from: motion(mark.from), to: motion(mark.to) };
  if (mark.kind === 'circle') return { ...mark, centre: motion(mark.centre) };
  return { ...mark, at: motion(mark.at) };
}

function segmentBack(piece: Piece, sense: 'ccw' | 'cw'): Segment {
  if (piece.kind === 'line') return { kind: 'line', to: piece.from };
  return { kind: 'arc', to: piece.from, centre: piece.centre, sense };
}

const mover =
  (by: Point): Motion =>
  (p) => ({ x: p.x + by.x, y: p.y + by.y });
const turner =
  (degrees: number): Motion =>
  (p) =>
    turnPoint(p, degrees);

function cosSin(degrees: number): { readonly cos: number; readonly sin: number } {
  const turn = ((degrees % 360) + 360) % 360;
  const quarters = [
    { cos: 1, sin: 0 },
    { cos: 0, sin: 1 },
    { cos: -1, sin: 0 },
    { cos: 0, sin: -1 },
  ];
  const exact = quarters[turn / 90];
  if (exact !== undefined) return exact;
  const radians = (turn * Math.PI) / 180;
  return { cos: Math.cos(radians), sin: Math.sin(radians) };
}
