import { polygonContour } from './contours.ts';
import type { Contour, Point } from './outline.ts';

/**
 * Outline of a flat line of constant width along a way.
 *
 * @param way corners, at least two, turning by at most 90 degrees.
 * @param mitre part of the diagonal of the corner square that is cut off its outside, 0 (square) to 0.8.
 *   The cut keeps the line's impedance around the bend; see `mitreFraction`.
 */
export function ribbon(way: readonly Point[], widthMm: number, mitre = 0): Contour {
  if (way.length < 2) throw new RangeError('a line needs two points');
  const half = widthMm / 2;
  const left: Point[] = [];
  const right: Point[] = [];
  way.forEach((point, index) => {
    const arriving = direction(way[index - 1], point);
    const leaving = direction(point, way[index + 1]);
    const before = arriving ?? leaving;
    const after = leaving ?? arriving;
    if (!before || !after) throw new RangeError('two corners of the line fall on one point');
    const leg = Math.min(legLength(way[index - 1], point), legLength(point, way[index + 1]));
    left.push(...sidePoints({ point, before, after, offset: half, mitre, leg }));
    right.push(...sidePoints({ point, before, after, offset: -half, mitre, leg }));
  });
  return polygonContour([...right, ...left.reverse()]);
}

/**
 * Best mitre of a right-angle microstrip bend: cut-off part of the diagonal, 0.52 + 0.65 exp(-1.35 w/h).
 * Source: R. J. P. Douville and D. S. James, IEEE Trans. MTT-26 (1978) 175-182, for w/h >= 0.25 and permittivity
 * up to 25 (from memory).
 */
export function mitreFraction(widthMm: number, heightMm: number): number {
  return 0.52 + 0.65 * Math.exp((-1.35 * widthMm) / heightMm);
}

interface Side {
  readonly point: Point;
  readonly before: Point;
  readonly after: Point;
  /** Positive is left of the way. */
  readonly offset: number;
  readonly mitre: number;
  /** Shorter of the two legs at this corner, mm. */
  readonly leg: number;
}

function sidePoints({ point, before, after, offset, mitre, leg }: Side): Point[] {
  const turn = before.x * after.y - before.y * after.x;
  const ahead = before.x * after.x + before.y * after.y;
  // Where the two offset lines meet: the normals' sum scaled so that both distances are `offset`.
  const scale = offset / (1 + ahead);
  const corner = { x: point.x - (before.y + after.y) * scale, y: point.y + (before.x + after.x) * scale };
  const outside = turn * offset < 0;
  if (!outside || mitre === 0 || Math.abs(turn) < 1e-9) return [corner];
  // A cut of `mitre` times the diagonal of the corner square takes 2 mitre widths off each outer edge.
  // It may not reach past the middle of a leg, where the next corner's cut begins.
  const cut = Math.min(2 * mitre * 2 * Math.abs(offset), 0.49 * leg + Math.abs(offset));
  return [
    { x: corner.x - before.x * cut, y: corner.y - before.y * cut },
    { x: corner.x + after.x * cut, y: corner.y + after.y * cut },
  ];
}

function legLength(from: Point | undefined, to: Point | undefined): number {
  return from && to ? Math.hypot(to.x - from.x, to.y - from.y) : Number.POSITIVE_INFINITY;
}

function direction(from: Point | undefined, to: Point | undefined): Point | undefined {
  if (!from || !to) return undefined;
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  return length > 0 ? { x: (to.x - from.x) / length, y: (to.y - from.y) / length } : undefined;
}
