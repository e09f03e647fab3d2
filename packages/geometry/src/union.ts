import { recoverArcs } from './arc-recovery.ts';
import { pieceGrid } from './box-grid.ts';
import { type Bounds, bounds, contains, perimeter, signedArea } from './contour-measure.ts';
import { selfCrossings } from './crossings.ts';
import { exactCorners } from './exact-corners.ts';
import { flattenContour } from './flatten.ts';
import { makerjsUnion } from './makerjs.ts';
import type { Contour, Point, Segment } from './outline.ts';
import { contourPieces, type Piece } from './pieces.ts';
import { polygonsArea, unionPolygons } from './polygon-boolean.ts';
import { reverseContour } from './transform.ts';

/** Arcs of the polygons that a union is held against. */
const JUDGE_TOLERANCE_MM = 2e-5;

/** The time makerjs takes grows faster than with the square: 0.3 s for 100 joined shapes, 20 s for 1000. */
const MOST_FOR_MAKERJS = 50;

/**
 * Everything inside any of the contours: outer borders counter-clockwise, holes clockwise, arcs kept. Shapes that share no more than a
 * point stay apart. Only clusters of shapes whose boxes touch are united, so many distant shapes cost little.
 * Each result is held against the area of a polygon union by another method, and against crossings. Where makerjs fails that, which
 * happens when edges lie on one another or touch, and for clusters of more than 50 shapes, the polygon union is taken and its arcs are put
 * back. Corners are computed anew from the pieces they were cut from.
 * Throws, with the difference, when no right result is found.
 */
export function unionContours(contours: readonly Contour[]): readonly Contour[] {
  return clusters(contours).flatMap((cluster) => {
    const [only] = cluster;
    return only !== undefined && cluster.length === 1 ? [counterClockwise(only)] : unionCluster(cluster);
  });
}

function unionCluster(cluster: readonly Contour[]): readonly Contour[] {
  const polygons = unionPolygons(
    cluster.map((contour) => flattenContour(contour, { toleranceMm: JUDGE_TOLERANCE_MM })),
  );
  const pieces = cluster.flatMap(contourPieces);
  const sources = pieceGrid(pieces);
  const arcs = pieces.filter((piece) => piece.kind === 'arc');
  const byPolygons = () => polygons.map((polygon) => recoverArcs(polygon, arcs));
  const ways = cluster.length > MOST_FOR_MAKERJS ? [byPolygons] : [() => makerjsUnion(cluster), byPolygons];
  const reasons: string[] = [];
  for (const way of ways) {
    const tried = attempt(() => nested(way().map((border) => exactCorners(tidy(border), sources))));
    const reason = 'error' in tried ? tried.error : wrong(tried.borders, cluster, polygons);
    if (reason === undefined && 'borders' in tried) return tried.borders;
    reasons.push(reason ?? '');
  }
  throw new Error(`union of ${cluster.length} shapes fails: ${reasons.join('; ')}`);
}

/** makerjs fails in several ways; what it throws or leaves open is a reason to try the other method. */
function attempt(unite: () => readonly Contour[]): { borders: readonly Contour[] } | { error: string } {
  try {
    return { borders: unite() };
  } catch (error) {
    return { error: error instanceof Error ? error.message : String(error) };
  }
}

/** The judge's flattening may differ along every arc of the cluster, and its rounding by a millionth of the area. */
function wrong(
  borders: readonly Contour[],
  cluster: readonly Contour[],
  polygons: readonly (readonly Point[])[],
): string | undefined {
  const area = borders.reduce((total, border) => total + signedArea(border), 0);
  const right = polygonsArea(polygons);
  const round = cluster.filter((contour) => !isStraight(contour)).reduce((sum, contour) => sum + perimeter(contour), 0);
  if (Math.abs(area - right) > 2 * JUDGE_TOLERANCE_MM * round + 1e-6 * Math.max(1, right))
    return `its area of ${area} mm² should be ${right} mm²`;
  const crossing = borders.flatMap(selfCrossings)[0];
  return crossing && `a border crosses itself at (${crossing.x}, ${crossing.y}) mm`;
}

/** Outer borders counter-clockwise, borders inside an odd number of others clockwise. */
function nested(borders: readonly Contour[]): readonly Contour[] {
  return borders.map((border) => {
    const inside = borders.filter((other) => other !== border && contains(other, pointOn(border))).length;
    const outward = counterClockwise(border);
    return inside % 2 === 0 ? outward : clockwise(outward);
  });
}

/** A circle as a hole becomes two half-turn arcs, because a circle has no sense of its own. */
function clockwise(contour: Contour): Contour {
  if (contour.kind === 'path') return reverseContour(contour);
  const { centre, radiusMm } = contour;
  const [right, left] = [
    { x: centre.x + radiusMm, y: centre.y },
    { x: centre.x - radiusMm, y: centre.y },
  ];
  const arc = (to: Point): Segment => ({ kind: 'arc', to, centre, sense: 'cw' });
  return { kind: 'path', start: right, segments: [arc(left), arc(right)] };
}

const counterClockwise = (contour: Contour): Contour => (signedArea(contour) < 0 ? reverseContour(contour) : contour);

const isStraight = (contour: Contour): boolean => contourPieces(contour).every((piece) => piece.kind === 'line');

/** A point on the border at an odd place, neither a corner nor a middle, where another border would rather touch it. */
function pointOn(border: Contour): Point {
  const [piece] = contourPieces(border);
  if (piece === undefined) throw new Error('union: a border without pieces');
  const part = 0.381966;
  if (piece.kind === 'line')
    return {
      x: piece.from.x + part * (piece.to.x - piece.from.x),
      y: piece.from.y + part * (piece.to.y - piece.from.y),
    };
  const angle = piece.startRad + part * piece.sweepRad;
  return {
    x: piece.centre.x + piece.radiusMm * Math.cos(angle),
    y: piece.centre.y + piece.radiusMm * Math.sin(angle),
  };
}

/** Joins what continues in one straight line or on one circle. */
function tidy(contour: Contour): Contour {
  const pieces = contourPieces(contour).filter((p) => p.kind === 'arc' || lengthOf(p) > 1e-6);
  const corners = pieces.filter((piece, i) => {
    const before = pieces[(i + pieces.length - 1) % pieces.length];
    return before === undefined || !continues(before, piece);
  });
  const [first] = corners;
  if (contour.kind === 'circle' || first === undefined || corners.length < 2) return contour;
  const segments = corners.map((piece, i): Segment => {
    const to = (corners[(i + 1) % corners.length] ?? first).from;
    return piece.kind === 'line' ? { kind: 'line', to } : { kind: 'arc', to, centre: piece.centre, sense: piece.sense };
  });
  return { kind: 'path', start: first.from, segments };
}

function continues(before: Piece, after: Piece): boolean {
  if (before.kind === 'arc')
    return after.kind === 'arc' && before.sense === after.sense && apart(before.centre, after.centre) <= 1e-6;
  if (after.kind === 'arc') return false;
  const [ax, ay] = [before.to.x - before.from.x, before.to.y - before.from.y];
  const [bx, by] = [after.to.x - after.from.x, after.to.y - after.from.y];
  const [a, b] = [lengthOf(before), lengthOf(after)];
  return ax * bx + ay * by > 0 && Math.abs(ax * by - ay * bx) <= 1e-6 * Math.min(a, b);
}

const lengthOf = (piece: Piece): number => apart(piece.from, piece.to);
const apart = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

/** Groups whose boxes touch, directly or through others, in the order of their first members. */
function clusters(contours: readonly Contour[]): readonly (readonly Contour[])[] {
  const boxes = contours.map(bounds);
  const leader = contours.map((_, i) => i);
  const find = (i: number): number => {
    const up = leader[i] ?? i;
    return up === i ? i : find(up);
  };
  for (const [i, j] of touchingPairs(boxes)) {
    const [a, b] = [find(i), find(j)];
    leader[Math.max(a, b)] = Math.min(a, b);
  }
  const groups = new Map<number, Contour[]>();
  contours.forEach((contour, i) => {
    const group = groups.get(find(i)) ?? [];
    group.push(contour);
    groups.set(find(i), group);
  });
  return [...groups.values()];
}

/** Sweeps by x, so that distant boxes are never compared. */
function touchingPairs(boxes: readonly Bounds[]): readonly (readonly [number, number])[] {
  const pairs: [number, number][] = [];
  const order = boxes.map((box, i) => ({ box, i })).sort((a, b) => a.box.minX - b.box.minX);
  let open: typeof order = [];
  for (const here of order) {
    open = open.filter((there) => there.box.maxX >= here.box.minX - 1e-6);
    for (const there of open)
      if (here.box.minY <= there.box.maxY + 1e-6 && there.box.minY <= here.box.maxY + 1e-6)
        pairs.push([there.i, here.i]);
    open.push(here);
  }
  return pairs;
}
