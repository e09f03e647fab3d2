import type { Point } from '../contour.ts';
import { DrawingFault } from './fault.ts';

/** x' = a x + c y + e, y' = b x + d y + f (SVG 1.1, 7.4). */
export interface Matrix {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

export const matrix = (a: number, b: number, c: number, d: number, e: number, f: number): Matrix => ({
  a,
  b,
  c,
  d,
  e,
  f,
});

export function apply(m: Matrix, { x, y }: Point): Point {
  return { x: m.a * x + m.c * y + m.e, y: m.b * x + m.d * y + m.f };
}

/** First `n`, then `m`. */
export function times(m: Matrix, n: Matrix): Matrix {
  return matrix(
    m.a * n.a + m.c * n.b,
    m.b * n.a + m.d * n.b,
    m.a * n.c + m.c * n.d,
    m.b * n.c + m.d * n.d,
    m.a * n.e + m.c * n.f + m.e,
    m.b * n.e + m.d * n.f + m.f,
  );
}

export const determinant = (m: Matrix): number => m.a * m.d - m.b * m.c;

/** Largest factor by which it stretches a length, at most. */
export const largestStretch = (m: Matrix): number => Math.hypot(m.a, m.b, m.c, m.d);

/** True when circles stay circles. */
export function keepsCircles(m: Matrix): boolean {
  const [x, y] = [Math.hypot(m.a, m.b), Math.hypot(m.c, m.d)];
  return Math.abs(x - y) < 1e-9 * x && Math.abs(m.a * m.c + m.b * m.d) < 1e-9 * x * y;
}

const RADIANS = Math.PI / 180;

function single(name: string, n: readonly number[]): Matrix | undefined {
  const [p = 0, q, r = 0] = n;
  const count = n.length;
  if (name === 'matrix' && count === 6) return matrix(p, q ?? 0, r, n[3] ?? 0, n[4] ?? 0, n[5] ?? 0);
  if (name === 'translate' && (count === 1 || count === 2)) return matrix(1, 0, 0, 1, p, q ?? 0);
  if (name === 'scale' && (count === 1 || count === 2)) return matrix(p, 0, 0, q ?? p, 0, 0);
  if (name === 'rotate' && (count === 1 || count === 3)) {
    const turn = matrix(
      Math.cos(p * RADIANS),
      Math.sin(p * RADIANS),
      -Math.sin(p * RADIANS),
      Math.cos(p * RADIANS),
      0,
      0,
    );
    return times(matrix(1, 0, 0, 1, q ?? 0, r), times(turn, matrix(1, 0, 0, 1, -(q ?? 0), -r)));
  }
  if (name === 'skewX' && count === 1) return matrix(1, 0, Math.tan(p * RADIANS), 1, 0, 0);
  if (name === 'skewY' && count === 1) return matrix(1, Math.tan(p * RADIANS), 0, 1, 0, 0);
  return undefined;
}

/** The value of a `transform` attribute (SVG 1.1, 7.6). Throws a DrawingFault for what is none. */
export function readTransform(text: string): Matrix {
  let whole = matrix(1, 0, 0, 1, 0, 0);
  const rest = text.replace(/\s*([A-Za-z]+)\s*\(([^()]*)\)\s*,?/g, (_, name: string, list: string) => {
    const numbers = list
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    const one = numbers.every(Number.isFinite) ? single(name, numbers) : undefined;
    if (one === undefined) throw notTransform(`${name}(${list})`);
    whole = times(whole, one);
    return '';
  });
  if (rest.trim() !== '') throw notTransform(rest.trim());
  return whole;
}

function notTransform(text: string): DrawingFault {
  const allowed = `has the transform ${JSON.stringify(text.slice(0, 40))}, which is not read`;
  return new DrawingFault('not-svg', allowed, 'apply all transforms in the drawing program');
}
