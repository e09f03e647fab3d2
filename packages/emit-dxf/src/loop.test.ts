import { type Contour, circleContour, roundedRectangleContour, signedArea } from '@sheetwave/geometry';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Vertex } from './drawing.ts';
import { contourEntity } from './loop.ts';

/** Area inside a closed polyline with bulges: shoelace plus circular segments r²(θ − sin θ)/2, r = chord/(2 sin θ/2). */
function bulgedArea(vertices: readonly Vertex[]): number {
  let area = 0;
  for (const [index, a] of vertices.entries()) {
    const b = vertices[(index + 1) % vertices.length] ?? a;
    area += (a.x * b.y - b.x * a.y) / 2;
    const turn = 4 * Math.atan(a.bulge);
    if (turn === 0) continue;
    const radius = Math.hypot(b.x - a.x, b.y - a.y) / (2 * Math.sin(Math.abs(turn) / 2));
    area += (radius ** 2 * (turn - Math.sin(turn))) / 2;
  }
  return area;
}

function vertices(contour: Contour): readonly Vertex[] {
  const entity = contourEntity(contour, 'CUT_OUTER');
  if (entity.kind !== 'loop') throw new Error('not a loop');
  return entity.vertices;
}

test('a quarter turn to the left has the bulge tan 22.5°', () => {
  // Source: bulge = tan(θ/4), DXF reference, group 42 (memory); the number is computed.
  const quarter = vertices({
    kind: 'path',
    start: { x: 1, y: 0 },
    segments: [
      { kind: 'arc', to: { x: 0, y: 1 }, centre: { x: 0, y: 0 }, sense: 'ccw' },
      { kind: 'line', to: { x: 0, y: 0 } },
      { kind: 'line', to: { x: 1, y: 0 } },
    ],
  });
  expect(quarter.map(({ x, y }) => [x, y])).toEqual([
    [1, 0],
    [0, 1],
    [0, 0],
  ]);
  expect(quarter.map(({ bulge }) => bulge)).toEqual([expect.closeTo(0.41421356, 8), 0, 0]);
});

test('an arc of three quarters becomes two arcs of the same circle, turning the same way', () => {
  const bite = vertices({
    kind: 'path',
    start: { x: 0, y: 2 },
    segments: [
      { kind: 'arc', to: { x: 2, y: 0 }, centre: { x: 0, y: 0 }, sense: 'ccw' },
      { kind: 'line', to: { x: 0, y: 2 } },
    ],
  });
  expect(bite).toHaveLength(3);
  expect(Math.hypot(bite[1]?.x ?? 0, bite[1]?.y ?? 0)).toBeCloseTo(2, 12);
  for (const { bulge } of bite) expect(Math.abs(bulge)).toBeLessThanOrEqual(1);
  // Three quarters of the disc and the triangle between the ends: computed.
  expect(bulgedArea(bite)).toBeCloseTo(0.75 * Math.PI * 4 + 2, 9);
});

test('a circle stays a circle', () => {
  const centre = { x: 3, y: -4 };
  expect(contourEntity(circleContour(centre, 1.6), 'DRILL')).toEqual({
    kind: 'circle',
    layer: 'DRILL',
    centre,
    radiusMm: 1.6,
  });
});

test('the area inside the bulged polyline is the area of the contour', () => {
  const side = fc.double({ min: 2, max: 500, noNaN: true });
  fc.assert(
    fc.property(side, side, fc.double({ min: 0, max: 1, noNaN: true }), (widthMm, heightMm, roundness) => {
      const radiusMm = (roundness * Math.min(widthMm, heightMm)) / 2;
      const contour = roundedRectangleContour({ centre: { x: 7, y: -3 }, widthMm, heightMm, radiusMm });
      const area = signedArea(contour);
      expect(Math.abs(bulgedArea(vertices(contour)) - area)).toBeLessThan(1e-6 * area);
    }),
    { seed: 20260517 },
  );
});

test('a segment that vanishes in rounding is left out', () => {
  const corners = vertices({
    kind: 'path',
    start: { x: 0, y: 0 },
    segments: [
      { kind: 'line', to: { x: 5, y: 0 } },
      { kind: 'line', to: { x: 5, y: 1e-9 } },
      { kind: 'line', to: { x: 0, y: 5 } },
      { kind: 'line', to: { x: 0, y: 0 } },
    ],
  });
  expect(corners).toHaveLength(3);
});
