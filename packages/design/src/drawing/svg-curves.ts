import type { Point } from '../contour.ts';
import { arcEdges, type Edge, lineEdge, MOST_EDGES } from './edge.ts';
import { DrawingFault } from './fault.ts';
import { apply, determinant, keepsCircles, largestStretch, type Matrix } from './matrix.ts';

/** Greatest distance between a curve of the drawing and the lines that stand for it, mm. */
const CURVE_MM = 0.005;

/** Lines through `count` + 1 points of a curve. Throws a DrawingFault for a curve that would need more than any outline has. */
function chords(count: number, at: (t: number) => Point): readonly Edge[] {
  if (!(count <= MOST_EDGES))
    throw new DrawingFault(
      'drawing-size',
      'holds a curve far larger than a patch',
      'check the unit that it is drawn in, and take out what does not belong to the outline',
    );
  return Array.from({ length: count }, (_, i) => lineEdge(at(i / count), at((i + 1) / count)));
}

/** A chord of a curve lies within |second derivative| / 8 n^2 of it when the parameter runs from 0 to 1 in n steps. */
const stepsFor = (secondDerivative: number): number =>
  Math.max(1, Math.ceil(Math.sqrt(secondDerivative / (8 * CURVE_MM))));

const bend = (a: Point, b: Point, c: Point): number => Math.hypot(a.x - 2 * b.x + c.x, a.y - 2 * b.y + c.y);

/** A cubic through its four control points, in mm. Its second derivative is at most 6 times the larger bend of its polygon. */
export function cubicTo(points: readonly Point[]): readonly Edge[] {
  const [p, q, r, s] = points;
  if (p === undefined || q === undefined || r === undefined || s === undefined) throw new Error('a cubic has 4 points');
  const along = (t: number, key: 'x' | 'y'): number => {
    const u = 1 - t;
    return u * u * u * p[key] + 3 * u * u * t * q[key] + 3 * u * t * t * r[key] + t * t * t * s[key];
  };
  return chords(stepsFor(6 * Math.max(bend(p, q, r), bend(q, r, s))), (t) => ({ x: along(t, 'x'), y: along(t, 'y') }));
}

/** A quadratic through its three control points, in mm. Its second derivative is twice the bend of its polygon. */
export function quadraticTo(points: readonly Point[]): readonly Edge[] {
  const [p, q, r] = points;
  if (p === undefined || q === undefined || r === undefined) throw new Error('a quadratic has 3 points');
  const along = (t: number, key: 'x' | 'y'): number =>
    (1 - t) * (1 - t) * p[key] + 2 * (1 - t) * t * q[key] + t * t * r[key];
  return chords(stepsFor(2 * bend(p, q, r)), (t) => ({ x: along(t, 'x'), y: along(t, 'y') }));
}

interface EllipticArc {
  readonly from: Point;
  readonly to: Point;
  readonly rx: number;
  readonly ry: number;
  readonly turnDeg: number;
  readonly large: boolean;
  readonly sweep: boolean;
}

/** An arc by its ends, in mm (SVG 1.1, F.6). Circles stay arcs; ellipses become lines. */
export function arcTo(arc: EllipticArc, toMm: Matrix): readonly Edge[] {
  const { from, to } = arc;
  if (from.x === to.x && from.y === to.y) return [];
  if (arc.rx === 0 || arc.ry === 0) return [lineEdge(apply(toMm, from), apply(toMm, to))];
  const about = centreForm(arc);
  if (Math.abs(about.rx - about.ry) < 1e-9 * about.rx && keepsCircles(toMm)) return roundEdges(arc, about, toMm);
  const count = stepsFor(about.sweepRad ** 2 * Math.max(about.rx, about.ry) * largestStretch(toMm));
  const inner = (t: number): Point => {
    if (t === 0) return from;
    return t === 1 ? to : about.at(about.startRad + t * about.sweepRad);
  };
  return chords(count, (t) => apply(toMm, inner(t)));
}

function roundEdges(arc: EllipticArc, about: CentreForm, toMm: Matrix): readonly Edge[] {
  const centre = apply(toMm, about.centre);
  const [from, to] = [apply(toMm, arc.from), apply(toMm, arc.to)];
  const startRad = Math.atan2(from.y - centre.y, from.x - centre.x);
  const sweepRad = about.sweepRad * Math.sign(determinant(toMm));
  const edges = arcEdges({ centre, radiusMm: Math.hypot(from.x - centre.x, from.y - centre.y), startRad, sweepRad });
  return edges.map((edge, i) => ({
    ...edge,
    from: i === 0 ? from : edge.from,
    to: i === edges.length - 1 ? to : edge.to,
  }));
}

interface CentreForm {
  readonly centre: Point;
  readonly rx: number;
  readonly ry: number;
  readonly startRad: number;
  readonly sweepRad: number;
  at(angleRad: number): Point;
}

/** SVG 1.1, F.6.5 and F.6.6: the centre, radii large enough to reach, and the angles. */
function centreForm({ from, to, rx, ry, turnDeg, large, sweep }: EllipticArc): CentreForm {
  const turn = (turnDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const half = { x: (from.x - to.x) / 2, y: (from.y - to.y) / 2 };
  const own = { x: cos * half.x + sin * half.y, y: -sin * half.x + cos * half.y };
  const grow = Math.max(1, Math.hypot(own.x / rx, own.y / ry));
  const [a, b] = [rx * grow, ry * grow];
  const reach = (own.x / a) ** 2 + (own.y / b) ** 2;
  const far = (large === sweep ? -1 : 1) * Math.sqrt(Math.max(0, 1 / reach - 1));
  const middle = { x: (far * a * own.y) / b, y: (-far * b * own.x) / a };
  const centre = {
    x: cos * middle.x - sin * middle.y + (from.x + to.x) / 2,
    y: sin * middle.x + cos * middle.y + (from.y + to.y) / 2,
  };
  const startRad = Math.atan2((own.y - middle.y) / b, (own.x - middle.x) / a);
  const endRad = Math.atan2((-own.y - middle.y) / b, (-own.x - middle.x) / a);
  const raw = endRad - startRad;
  const sweepRad = sweep ? (raw < 0 ? raw + 2 * Math.PI : raw) : raw > 0 ? raw - 2 * Math.PI : raw;
  const at = (angle: number): Point => ({
    x: centre.x + a * Math.cos(angle) * cos - b * Math.sin(angle) * sin,
    y: centre.y + a * Math.cos(angle) * sin + b * Math.sin(angle) * cos,
  });
  return { centre, rx: a, ry: b, startRad, sweepRad, at };
}
