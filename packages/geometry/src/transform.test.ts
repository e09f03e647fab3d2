import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bounds, contains, perimeter, signedArea } from './contour-measure.ts';
import { circleContour, polygonContour, roundedRectangleContour } from './contours.ts';
import { flattenContour } from './flatten.ts';
import type { Contour } from './outline.ts';
import {
  mirrorContour,
  mirrorMark,
  moveContour,
  placePoint,
  reverseContour,
  turnContour,
  turnOutline,
} from './transform.ts';

const size = fc.double({ min: 0.5, max: 100, noNaN: true });
const place = fc.record({
  x: fc.double({ min: -100, max: 100, noNaN: true }),
  y: fc.double({ min: -100, max: 100, noNaN: true }),
});
/** Not alike from any side: a rounded rectangle, a triangle or a disc off the origin. */
const anyContour: fc.Arbitrary<Contour> = fc.oneof(
  fc
    .tuple(place, size, size)
    .map(([centre, widthMm, heightMm]) =>
      roundedRectangleContour({ centre, widthMm, heightMm, radiusMm: Math.min(widthMm, heightMm) / 3 }),
    ),
  fc.tuple(place, size).map(([c, s]) => polygonContour([c, { x: c.x + s, y: c.y }, { x: c.x, y: c.y + 2 * s }])),
  fc.tuple(place, size).map(([centre, r]) => circleContour(centre, r)),
);

describe('rigid motions', () => {
  it('keep area, perimeter, sense and closure', () => {
    fc.assert(
      fc.property(anyContour, place, fc.double({ min: -720, max: 720, noNaN: true }), (contour, by, degrees) => {
        for (const moved of [moveContour(contour, by), turnContour(contour, degrees), mirrorContour(contour)]) {
          expect(signedArea(moved)).toBeCloseTo(signedArea(contour), 6);
          expect(perimeter(moved)).toBeCloseTo(perimeter(contour), 6);
          if (moved.kind === 'path') expect(moved.segments.at(-1)?.to).toEqual(moved.start);
        }
      }),
      { numRuns: 1000, seed: 11 },
    );
  });

  it('come back exactly after four quarter turns and after two mirrors', () => {
    fc.assert(
      fc.property(anyContour, (contour) => {
        let turned = contour;
        for (let i = 0; i < 4; i++) turned = turnContour(turned, 90);
        const there = bounds(contour);
        expect(everyNumber(turned)).toEqual(everyNumber(contour));
        expect(everyNumber(mirrorContour(mirrorContour(contour)))).toEqual(everyNumber(contour));
        const mirrored = bounds(mirrorContour(contour));
        expect(mirrored.maxX).toBeCloseTo(-there.minX, 9);
        expect(mirrored.minX).toBeCloseTo(-there.maxX, 9);
      }),
      { numRuns: 1000, seed: 12 },
    );
  });

  it('reverse the sense only when asked', () => {
    fc.assert(
      fc.property(anyContour, (contour) => {
        const back = reverseContour(contour);
        const sign = contour.kind === 'circle' ? 1 : -1;
        expect(signedArea(back)).toBeCloseTo(sign * signedArea(contour), 6);
      }),
      { numRuns: 500, seed: 13 },
    );
  });

  it('place a point by turning it first', () => {
    const placement = { at: { x: 10, y: 20, z: 5 }, turnDeg: 90 };
    expect(placePoint({ x: 1, y: 0 }, placement)).toEqual({ x: 10, y: 21, z: 5 });
    expect(placePoint({ x: 1, y: 0, z: 2 }, { ...placement, turnDeg: 180 })).toEqual({ x: 9, y: 20, z: 7 });
  });

  it('carry holes with an outline and leave text readable', () => {
    const hole = { purpose: 'feed', centre: { x: 3, y: 1 }, diameterMm: 1.3, plated: false } as const;
    const outline = { outer: circleContour({ x: 0, y: 0 }, 9), cutouts: [], holes: [hole] };
    expect(turnOutline(outline, -90).holes[0]?.centre).toEqual({ x: 1, y: -3 });
    const mark = { kind: 'text', purpose: 'label', at: { x: 2, y: 1 }, text: 'A1', heightMm: 3 } as const;
    expect(mirrorMark(mark)).toEqual({ ...mark, at: { x: -2, y: 1 } });
  });
});

describe('flattening', () => {
  it('keeps its corners on the arc, within the sagitta, and its direction', () => {
    fc.assert(
      fc.property(anyContour, fc.double({ min: 0.0005, max: 0.1, noNaN: true }), (contour, toleranceMm) => {
        const on = polygonArea(flattenContour(contour, { toleranceMm }));
        const around = polygonArea(flattenContour(contour, { toleranceMm, corners: 'around' }));
        const slack = perimeter(contour) * toleranceMm;
        const area = signedArea(contour);
        expect(on).toBeLessThanOrEqual(area + 1e-6);
        expect(on).toBeGreaterThanOrEqual(area - slack);
        expect(around).toBeGreaterThanOrEqual(area - 1e-6);
        expect(around).toBeLessThanOrEqual(area + 2 * slack + 1e-6);
      }),
      { numRuns: 500, seed: 14 },
    );
  });

  it('puts every corner of a flattened circle at its radius', () => {
    const circle = circleContour({ x: 1, y: 2 }, 7);
    for (const p of flattenContour(circle)) expect(Math.hypot(p.x - 1, p.y - 2)).toBeCloseTo(7, 12);
    expect(contains(circle, { x: 1, y: 2 })).toBe(true);
    expect(() => flattenContour(circle, { toleranceMm: 0 })).toThrow('above 0');
  });
});

function polygonArea(corners: readonly { readonly x: number; readonly y: number }[]): number {
  return signedArea(polygonContour(corners));
}

/** Coordinates in order, with −0 as 0. */
function everyNumber(contour: Contour): readonly number[] {
  const numbers: number[] = [];
  JSON.stringify(contour, (_, value: unknown) => {
    if (typeof value === 'number') numbers.push(value + 0);
    return value;
  });
  return numbers;
}
