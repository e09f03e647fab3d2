import { type Contour, type Point, rectangleContour } from '@sheetwave/geometry';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { contourPath, movedPath, openPath, type PathCommand } from './path-commands.ts';

/** De Casteljau's rule, without the code under test. */
function onCurve(from: Point, curve: Extract<PathCommand, { kind: 'curve' }>, t: number): Point {
  const mix = (a: Point, b: Point): Point => ({ x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t });
  const [ab, bc, cd] = [mix(from, curve.first), mix(curve.first, curve.second), mix(curve.second, curve.to)];
  return mix(mix(ab, bc), mix(bc, cd));
}

function pointsAlong(path: readonly PathCommand[]): readonly Point[] {
  const points: Point[] = [];
  let at: Point = { x: 0, y: 0 };
  for (const command of path) {
    if (command.kind === 'close') continue;
    if (command.kind === 'curve') for (const t of [0.1, 0.25, 0.5, 0.75, 0.9]) points.push(onCurve(at, command, t));
    at = command.to;
    points.push(at);
  }
  return points;
}

test('a circle stays within 4e-7 of its radius, all the way round', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.1, max: 500, noNaN: true }), (radiusMm) => {
      const centre = { x: 12, y: -7 };
      const points = pointsAlong(contourPath({ kind: 'circle', centre, radiusMm }));
      const off = points.map(({ x, y }) => Math.abs(Math.hypot(x - centre.x, y - centre.y) / radiusMm - 1));
      expect(Math.max(...off)).toBeLessThan(4e-7);
      expect(points.length).toBe(1 + 12 * 6);
    }),
  );
});

test('an arc ends where the contour says, on the side that its sense says', () => {
  const half = (sense: 'ccw' | 'cw'): Contour => ({
    kind: 'path',
    start: { x: 1, y: 0 },
    segments: [
      { kind: 'arc', to: { x: -1, y: 0 }, centre: { x: 0, y: 0 }, sense },
      { kind: 'line', to: { x: 1, y: 0 } },
    ],
  });
  const middle = (contour: Contour) => pointsAlong(contourPath(contour)).map(({ y }) => y);
  expect(Math.max(...middle(half('ccw')))).toBeCloseTo(1, 6);
  expect(Math.min(...middle(half('cw')))).toBeCloseTo(-1, 6);
});

test('straight contours have no curves', () => {
  const path = contourPath(rectangleContour({ centre: { x: 0, y: 0 }, widthMm: 4, heightMm: 2 }));
  expect(path.map(({ kind }) => kind)).toEqual(['move', 'line', 'line', 'line', 'line', 'close']);
  expect(
    openPath([
      { x: 0, y: 0 },
      { x: 1, y: 1 },
    ]).map(({ kind }) => kind),
  ).toEqual(['move', 'line']);
});

test('moving a path moves the points that pull its curves', () => {
  const circle = contourPath({ kind: 'circle', centre: { x: 0, y: 0 }, radiusMm: 3 });
  const moved = movedPath(circle, ({ x, y }) => ({ x: x + 5, y: 20 - y }));
  const off = pointsAlong(moved).map(({ x, y }) => Math.abs(Math.hypot(x - 5, y - 20) - 3));
  expect(Math.max(...off)).toBeLessThan(2e-6);
});
