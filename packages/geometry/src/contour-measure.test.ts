import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bounds,
  centroid,
  contains,
  distanceToContour,
  outlineArea,
  perimeter,
  signedArea,
} from './contour-measure.ts';
import { circleContour, polygonContour, rectangleContour, roundedRectangleContour } from './contours.ts';
import type { Contour } from './outline.ts';

const size = fc.double({ min: 0.5, max: 200, noNaN: true });
const place = fc.record({
  x: fc.double({ min: -300, max: 300, noNaN: true }),
  y: fc.double({ min: -300, max: 300, noNaN: true }),
});
const rounded = fc
  .record({ centre: place, widthMm: size, heightMm: size, part: fc.double({ min: 0, max: 0.5, noNaN: true }) })
  .map(({ part, ...box }) => ({ ...box, radiusMm: part * Math.min(box.widthMm, box.heightMm) }));

/** Three quarters of a disc: centre at the origin, radius 2, the quarter x > 0, y < 0 missing. */
const threeQuarters: Contour = {
  kind: 'path',
  start: { x: 0, y: 0 },
  segments: [
    { kind: 'line', to: { x: 2, y: 0 } },
    { kind: 'arc', to: { x: 0, y: -2 }, centre: { x: 0, y: 0 }, sense: 'ccw' },
    { kind: 'line', to: { x: 0, y: 0 } },
  ],
};

describe('closed forms of plane geometry', () => {
  it('measures a rounded rectangle (area wh − (4 − π)r², perimeter 2(w + h) − (8 − 2π)r)', () => {
    fc.assert(
      fc.property(rounded, (box) => {
        const contour = roundedRectangleContour(box);
        const { widthMm: w, heightMm: h, radiusMm: r, centre } = box;
        expect(signedArea(contour)).toBeCloseTo(w * h - (4 - Math.PI) * r * r, 6);
        expect(perimeter(contour)).toBeCloseTo(2 * (w + h) - (8 - 2 * Math.PI) * r, 8);
        const b = bounds(contour);
        expect(b.minX).toBeCloseTo(centre.x - w / 2, 9);
        expect(b.maxX).toBeCloseTo(centre.x + w / 2, 9);
        expect(b.minY).toBeCloseTo(centre.y - h / 2, 9);
        expect(b.maxY).toBeCloseTo(centre.y + h / 2, 9);
        expect(centroid(contour).x).toBeCloseTo(centre.x, 6);
        expect(centroid(contour).y).toBeCloseTo(centre.y, 6);
      }),
      { numRuns: 2000, seed: 1 },
    );
  });

  it('measures a circle', () => {
    const circle = circleContour({ x: 3, y: -4 }, 2);
    expect(signedArea(circle)).toBeCloseTo(4 * Math.PI, 12);
    expect(perimeter(circle)).toBeCloseTo(4 * Math.PI, 12);
    expect(bounds(circle)).toEqual({ minX: 1, minY: -6, maxX: 5, maxY: -2 });
    expect(contains(circle, { x: 3, y: -4 })).toBe(true);
    expect(contains(circle, { x: 4.5, y: -5.5 })).toBe(false);
    expect(distanceToContour(circle, { x: 3, y: -4 })).toBe(2);
  });

  it('measures three quarters of a disc with its arc extremes', () => {
    expect(signedArea(threeQuarters)).toBeCloseTo(3 * Math.PI, 12);
    const b = bounds(threeQuarters);
    expect([b.minX, b.minY, b.maxX, b.maxY].map((v) => Math.round(v * 1e9) / 1e9)).toEqual([-2, -2, 2, 2]);
    // The three equal quarters of a disc: centroid of a quarter is 4r/3π from each straight side.
    const quarter = (4 * 2) / (3 * Math.PI);
    expect(centroid(threeQuarters).x).toBeCloseTo(-quarter / 3, 12);
    expect(centroid(threeQuarters).y).toBeCloseTo(quarter / 3, 12);
    expect(contains(threeQuarters, { x: 1, y: -1 })).toBe(false);
    expect(contains(threeQuarters, { x: -1, y: -1 })).toBe(true);
    expect(distanceToContour(threeQuarters, { x: 1, y: -1 })).toBe(1);
  });

  it('agrees with the defining inequality of a disc and of a rectangle on whether a point is inside', () => {
    fc.assert(
      fc.property(place, size, place, (centre, r, p) => {
        const away = Math.hypot(p.x - centre.x, p.y - centre.y);
        fc.pre(Math.abs(away - r) > 1e-5);
        expect(contains(circleContour(centre, r), p)).toBe(away < r);
        const box = rectangleContour({ centre, widthMm: 2 * r, heightMm: r });
        const [dx, dy] = [Math.abs(p.x - centre.x), Math.abs(p.y - centre.y)];
        fc.pre(Math.abs(dx - r) > 1e-5 && Math.abs(dy - r / 2) > 1e-5);
        expect(contains(box, p)).toBe(dx < r && dy < r / 2);
      }),
      { numRuns: 2000, seed: 2 },
    );
  });

  it('knows the inside of a contour at points level with its corners and on its chords', () => {
    const rounded = roundedRectangleContour({ centre: { x: 0, y: 0 }, widthMm: 8, heightMm: 6, radiusMm: 2 });
    for (let x = -5; x <= 5; x += 0.5)
      for (let y = -4; y <= 4; y += 0.5) {
        const [dx, dy] = [Math.abs(x) - 2, Math.abs(y) - 1];
        const inside = dx > 0 && dy > 0 ? Math.hypot(dx, dy) <= 2 : dx <= 2 && dy <= 2;
        expect([x, y, contains(rounded, { x, y })]).toEqual([x, y, inside]);
      }
  });

  it('takes cut-outs and holes off the area', () => {
    const outer = rectangleContour({ centre: { x: 0, y: 0 }, widthMm: 10, heightMm: 10 });
    const cutout = rectangleContour({ centre: { x: 2, y: 2 }, widthMm: 2, heightMm: 1 });
    const hole = { purpose: 'fixing', centre: { x: -2, y: -2 }, diameterMm: 2, plated: false } as const;
    expect(outlineArea({ outer, cutouts: [cutout], holes: [hole] })).toBeCloseTo(98 - Math.PI, 12);
  });
});

describe('constructors', () => {
  it('end exactly where they start', () => {
    fc.assert(
      fc.property(rounded, (box) => {
        const contour = roundedRectangleContour(box);
        expect(contour.kind === 'path' && contour.segments.at(-1)?.to).toEqual(
          contour.kind === 'path' ? contour.start : undefined,
        );
      }),
      { numRuns: 500, seed: 3 },
    );
  });

  it('turn a clockwise list of corners round and keep the first corner', () => {
    const contour = polygonContour([
      { x: 0, y: 0 },
      { x: 0, y: 2 },
      { x: 3, y: 0 },
    ]);
    expect(signedArea(contour)).toBe(3);
    expect(contour.kind === 'path' && contour.start).toEqual({ x: 0, y: 0 });
  });

  it('refuse what is no shape', () => {
    expect(() => circleContour({ x: 0, y: Number.NaN }, 1)).toThrow('y is NaN');
    expect(() => circleContour({ x: 0, y: 0 }, 0)).toThrow('radiusMm is 0');
    const box = { centre: { x: 0, y: 0 }, widthMm: 4, heightMm: 2 };
    expect(() => rectangleContour({ ...box, widthMm: -4 })).toThrow('widthMm is -4');
    expect(() => roundedRectangleContour({ ...box, radiusMm: 1.01 })).toThrow('1.01 mm does not fit');
    expect(() => polygonContour([box.centre, { x: 1, y: 1 }])).toThrow('2 corners');
    expect(() => polygonContour([box.centre, { x: 1, y: 1 }, { x: 2, y: 2 }])).toThrow('no area');
  });
});
