import type { Contour, Point, Segment } from '../contour.ts';
import { DrawingFault } from './fault.ts';

/** A straight or round piece of a drawing, in mm. `bulge` is the tangent of a quarter of the angle it turns, above 0 to the left; 0 is straight. */
export interface Edge {
  readonly from: Point;
  readonly to: Point;
  readonly bulge: number;
}

/** What a drawing holds before it is joined: loops that are closed by themselves, single edges, and whole circles. */
export interface Strokes {
  readonly loops: readonly (readonly Edge[])[];
  readonly edges: readonly Edge[];
  readonly circles: readonly Extract<Contour, { kind: 'circle' }>[];
}

/** More lines and arcs than any outline needs; checks of crossings stay quick below it. */
export const MOST_EDGES = 5000;

/** Throws a DrawingFault when a drawing holds more pieces than that. */
export function requireFew(count: number): void {
  if (count <= MOST_EDGES) return;
  const allowed = `holds ${count} lines and arcs, more than ${MOST_EDGES}`;
  throw new DrawingFault('drawing-too-fine', allowed, 'simplify the outline; 0.01 mm is finer than any cutter');
}

/** Flatter arcs than this are lines, mm. */
const FLAT_MM = 1e-6;

export const lineEdge = (from: Point, to: Point): Edge => ({ from, to, bulge: 0 });

export const distance = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

/** Arc of a circle from one angle by a sweep (radians), in pieces of at most a quarter turn. */
export function arcEdges(arc: {
  readonly centre: Point;
  readonly radiusMm: number;
  readonly startRad: number;
  readonly sweepRad: number;
}): readonly Edge[] {
  const { centre, radiusMm, startRad, sweepRad } = arc;
  const count = Math.max(1, Math.ceil(Math.abs(sweepRad) / (Math.PI / 2) - 1e-9));
  const step = sweepRad / count;
  const at = (i: number): Point => ({
    x: centre.x + radiusMm * Math.cos(startRad + i * step),
    y: centre.y + radiusMm * Math.sin(startRad + i * step),
  });
  return Array.from({ length: count }, (_, i) => ({ from: at(i), to: at(i + 1), bulge: Math.tan(step / 4) }));
}

/** The edges of a polyline through points that each carry the bulge of the edge that leaves them. */
export function polylineEdges(
  points: readonly (Point & { readonly bulge: number })[],
  closed: boolean,
): readonly Edge[] {
  const ends = closed ? [...points.slice(1), ...points.slice(0, 1)] : points.slice(1);
  return ends.map((to, i) => {
    const from = points[i] ?? to;
    return { from: { x: from.x, y: from.y }, to: { x: to.x, y: to.y }, bulge: from.bulge };
  });
}

/** Edges that follow one another, as a contour. Each begins exactly where the one before ends, and arcs keep their angle. */
export function contourOfEdges(edges: readonly Edge[]): Contour | undefined {
  const [first] = edges;
  if (first === undefined || edges.length < 2) return undefined;
  let from = first.from;
  const segments = edges.map((edge, i): Segment => {
    const to = i === edges.length - 1 ? first.from : edge.to;
    const segment = segmentOf({ from, to, bulge: edge.bulge });
    from = to;
    return segment;
  });
  return { kind: 'path', start: first.from, segments };
}

/** The centre of an arc lies (1 - b^2) / 4b chords to the left of the middle of its chord, from tan(2a) = 2b / (1 - b^2) with b = tan(a). */
function segmentOf({ from, to, bulge }: Edge): Segment {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  if (Math.abs(bulge) * Math.hypot(dx, dy) < 2 * FLAT_MM) return { kind: 'line', to };
  const left = (1 - bulge * bulge) / (4 * bulge);
  const centre = { x: (from.x + to.x) / 2 - left * dy, y: (from.y + to.y) / 2 + left * dx };
  return { kind: 'arc', to, centre, sense: bulge > 0 ? 'ccw' : 'cw' };
}
