import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { signedArea } from './contour-measure.ts';
import { circleContour, rectangleContour, roundedRectangleContour } from './contours.ts';
import { selfCrossings } from './crossings.ts';
import { flattenContour } from './flatten.ts';
import type { Contour } from './outline.ts';
import { differingArea, unionPolygons } from './polygon-boolean.ts';
import { turnContour } from './transform.ts';
import { unionContours } from './union.ts';

const box = (x: number, y: number, w: number, h: number): Contour =>
  rectangleContour({ centre: { x: x + w / 2, y: y + h / 2 }, widthMm: w, heightMm: h });
const area = (contours: readonly Contour[]): number => contours.reduce((sum, c) => sum + signedArea(c), 0);
const segments = (contour: Contour | undefined): number => (contour?.kind === 'path' ? contour.segments.length : 0);

/** Lengths on a raster of 0.01 mm, as drawings have them. */
const um10 = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 100 * min, max: 100 * max }).map((n) => n / 100);

describe('union', () => {
  it('joins rectangles that abut, overlap and lie flush', () => {
    const abutting = unionContours([box(0, 0, 10, 5), box(10, 0, 10, 5)]);
    expect([abutting.length, segments(abutting[0]), area(abutting)]).toEqual([1, 4, 100]);
    const tee = unionContours([box(0, 0, 10, 5), box(4, 5, 2, 10)]);
    expect([tee.length, segments(tee[0]), area(tee)]).toEqual([1, 8, 70]);
    const flush = unionContours([box(0, 0, 10, 5), box(0, 0, 4, 9)]);
    expect([flush.length, segments(flush[0]), area(flush)]).toEqual([1, 6, 66]);
  });

  it('leaves a hole clockwise', () => {
    const ring = [box(0, 0, 10, 2), box(0, 8, 10, 2), box(0, 1, 2, 8), box(8, 1, 2, 8)];
    const borders = unionContours(ring);
    expect(borders.map((b) => Math.round(signedArea(b) * 1e6) / 1e6).sort((a, b) => a - b)).toEqual([-36, 100]);
  });

  it('keeps arcs', () => {
    const [lens, ...more] = unionContours([circleContour({ x: 0, y: 0 }, 5), circleContour({ x: 6, y: 0 }, 5)]);
    expect(more).toEqual([]);
    expect(lens?.kind === 'path' && lens.segments.map((s) => s.kind)).toEqual(['arc', 'arc']);
    // Two discs of radius r a distance a apart share 2r² acos(a / 2r) − (a / 2) √(4r² − a²).
    const shared = 2 * 25 * Math.acos(0.6) - 3 * Math.sqrt(100 - 36);
    expect(area(lens === undefined ? [] : [lens])).toBeCloseTo(50 * Math.PI - shared, 12);
  });

  it('leaves distant shapes alone and their order as given', () => {
    const apart = [box(20, 0, 1, 1), circleContour({ x: 0, y: 0 }, 1), box(10, 0, 1, 1)];
    expect(unionContours(apart)).toEqual(apart);
  });

  it('unites a long row of discs on a bar by the other method, to the same closed form', () => {
    // Discs of radius 2 on a bar 2 wide, 10 apart: each adds its two segments outside |y| < 1, r² acos(d / r) − d √(r² − d²).
    const cap = 4 * Math.acos(0.5) - Math.sqrt(3);
    const count = 60;
    const discs = Array.from({ length: count }, (_, i) => circleContour({ x: 10 * i + 5, y: 0 }, 2));
    const [row, ...more] = unionContours([box(0, -1, 10 * count, 2), ...discs]);
    expect(more).toEqual([]);
    expect(segments(row)).toBe(4 + 4 * count);
    expect(row && signedArea(row)).toBeCloseTo(10 * count * 2 + 2 * count * cap, 9);
  });

  it('agrees with a polygon union for overlapping and flush shapes on a whole-millimetre raster', () => {
    const mm = fc.integer({ min: 0, max: 12 });
    const shape = fc.oneof(
      fc
        .tuple(mm, mm, fc.integer({ min: 1, max: 8 }), fc.integer({ min: 1, max: 8 }))
        .map(([x, y, w, h]) => box(x, y, w, h)),
    );
    fc.assert(
      fc.property(fc.array(shape, { minLength: 2, maxLength: 7 }), (shapes) => {
        expectAsPolygonUnion(shapes);
      }),
      { numRuns: 500, seed: 31 },
    );
  });

  it('agrees with a polygon union for shapes with arcs at any place and angle', () => {
    const place = fc.record({
      x: um10(0, 15),
      y: um10(0, 15),
    });
    const size = um10(1, 9);
    const shape = fc.oneof(
      fc.tuple(place, size).map(([centre, r]) => circleContour(centre, r)),
      fc
        .tuple(place, size, size, fc.double({ min: 0, max: 360, noNaN: true }))
        .map(([centre, widthMm, heightMm, degrees]) =>
          turnContour(
            roundedRectangleContour({ centre, widthMm, heightMm, radiusMm: Math.min(widthMm, heightMm) / 4 }),
            degrees,
          ),
        ),
    );
    fc.assert(
      fc.property(fc.array(shape, { minLength: 2, maxLength: 5 }), (shapes) => {
        expectAsPolygonUnion(shapes);
      }),
      { numRuns: 300, seed: 32 },
    );
  });
});

function expectAsPolygonUnion(shapes: readonly Contour[]): void {
  const borders = unionContours(shapes);
  const united = unionPolygons(shapes.map((shape) => flattenContour(shape)));
  expect(
    differingArea(
      borders.map((b) => flattenContour(b)),
      united,
    ),
  ).toBeLessThan(0.05);
  for (const border of borders) expect(selfCrossings(border)).toEqual([]);
}
