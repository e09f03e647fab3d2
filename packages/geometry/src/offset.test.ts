import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bounds, perimeter, signedArea } from './contour-measure.ts';
import { circleContour, polygonContour, rectangleContour, roundedRectangleContour } from './contours.ts';
import { selfCrossings } from './crossings.ts';
import { flattenContour } from './flatten.ts';
import { offsetContour } from './offset.ts';
import type { Contour, Point, Segment } from './outline.ts';
import { differingArea, inflatePolygon } from './polygon-boolean.ts';
import { toolPath } from './tool-path.ts';
import { reverseContour } from './transform.ts';

const centre = { x: 0, y: 0 };

/** A disc with a slot from its right side: two lines, a round slot end, and the long arc. */
function slottedDisc(size: { radius: number; slot: number; depth: number }): Contour {
  const { radius: r, slot: s, depth } = size;
  const meet = Math.sqrt(r * r - (s / 2) ** 2);
  const end = r - depth;
  const segments: Segment[] = [
    { kind: 'arc', to: { x: meet, y: -s / 2 }, centre, sense: 'ccw' },
    { kind: 'line', to: { x: end, y: -s / 2 } },
    { kind: 'arc', to: { x: end, y: s / 2 }, centre: { x: end, y: 0 }, sense: 'cw' },
    { kind: 'line', to: { x: meet, y: s / 2 } },
  ];
  return { kind: 'path', start: { x: meet, y: s / 2 }, segments };
}

/** A star-shaped polygon about the origin: never crosses itself, has corners of both kinds. */
const starPolygon = fc
  .array(fc.double({ min: 5, max: 20, noNaN: true }), { minLength: 4, maxLength: 12 })
  .map((radii) =>
    polygonContour(
      radii.map((r, i): Point => {
        const angle = (2 * Math.PI * i) / radii.length;
        return { x: r * Math.cos(angle), y: r * Math.sin(angle) };
      }),
    ),
  );

/** A plate with a notch in its lower edge. */
const notched = fc
  .record({
    w: fc.double({ min: 10, max: 60, noNaN: true }),
    h: fc.double({ min: 10, max: 60, noNaN: true }),
    gap: fc.double({ min: 1, max: 4, noNaN: true }),
    depth: fc.double({ min: 1, max: 8, noNaN: true }),
  })
  .map(({ w, h, gap, depth }) =>
    polygonContour([
      { x: 0, y: 0 },
      { x: w / 2 - gap, y: 0 },
      { x: w / 2 - gap, y: depth },
      { x: w / 2 + gap, y: depth },
      { x: w / 2 + gap, y: 0 },
      { x: w, y: 0 },
      { x: w, y: h },
      { x: 0, y: h },
    ]),
  );

/** The independent judge: a polygon offset by another algorithm. */
function expectAsPolygonOffset(contour: Contour, d: number, corners: 'sharp' | 'round'): void {
  const result = offsetContour(contour, d, { corners });
  const polygon = inflatePolygon(flattenContour(contour), { byMm: d, corners, mitreLimit: 4 });
  const differing = differingArea([flattenContour(result)], polygon);
  expect(differing).toBeLessThan(0.002 * perimeter(result) + (corners === 'sharp' ? 12 * d * d : 0));
  expect(selfCrossings(result)).toEqual([]);
  expect(Math.sign(signedArea(result))).toBe(Math.sign(signedArea(contour)));
}

describe('offset against closed forms', () => {
  it('grows and shrinks rectangles, 1 380 of them, without losing one (10 x 13 by 0.5 among them)', () => {
    let cases = 0;
    for (const widthMm of [5, 6, 8, 10, 12.5])
      for (const heightMm of [5, 6.5, 8, 10, 11, 13])
        for (let i = 1; i <= 23; i++)
          for (const d of [0.05 + (i - 1) * (1.95 / 22), -(0.05 + (i - 1) * (1.95 / 22))]) {
            const result = offsetContour(rectangleContour({ centre, widthMm, heightMm }), d);
            expect(signedArea(result)).toBeCloseTo((widthMm + 2 * d) * (heightMm + 2 * d), 9);
            expect(result.kind === 'path' && result.segments.length).toBe(4);
            cases++;
          }
    expect(cases).toBe(1380);
    const result = offsetContour(rectangleContour({ centre, widthMm: 10, heightMm: 13 }), 0.5);
    expect(bounds(result)).toEqual({ minX: -5.5, minY: -7, maxX: 5.5, maxY: 7 });
  });

  it('keeps the arcs of 460 rounded rectangles concentric, or makes sharp corners once they are swallowed', () => {
    let cases = 0;
    for (const [widthMm, heightMm] of [
      [5, 6.5],
      [10, 13],
      [36, 36],
      [20, 8],
      [50, 50.001],
    ] as const)
      for (let i = 1; i <= 23; i++)
        for (const d of [0.25, -0.25, 0.05, -0.05]) {
          const r = (i * Math.min(widthMm, heightMm)) / 46;
          const result = offsetContour(roundedRectangleContour({ centre, widthMm, heightMm, radiusMm: r }), d);
          const left = Math.max(0, r + d);
          const area = (widthMm + 2 * d) * (heightMm + 2 * d) - (4 - Math.PI) * left * left;
          expect(signedArea(result)).toBeCloseTo(area, 9);
          const arcs = result.kind === 'path' ? result.segments.filter((s) => s.kind === 'arc') : [];
          expect(arcs.length).toBe(left > 1e-9 ? 4 : 0);
          cases++;
        }
    expect(cases).toBe(460);
  });

  it("has the area of Steiner's formula A + Pd + πd² for round growth of convex shapes", () => {
    const triangle = polygonContour([centre, { x: 30, y: 0 }, { x: 7, y: 19 }]);
    for (const d of [0.02, 0.1, 1, 5]) {
      const grown = offsetContour(triangle, d, { corners: 'round' });
      expect(signedArea(grown)).toBeCloseTo(signedArea(triangle) + perimeter(triangle) * d + Math.PI * d * d, 9);
    }
  });

  it('keeps the sense of a clockwise contour and still grows it', () => {
    const hole = reverseContour(rectangleContour({ centre, widthMm: 10, heightMm: 4 }));
    expect(signedArea(offsetContour(hole, 1))).toBeCloseTo(-72, 12);
    expect(signedArea(offsetContour(hole, -1))).toBeCloseTo(-16, 12);
  });

  it('swallows fillets and chamfers that are smaller than the distance', () => {
    const chamfered = polygonContour([
      { x: 0.3, y: 0 },
      { x: 10, y: 0 },
      { x: 10, y: 8 },
      { x: 0, y: 8 },
      { x: 0, y: 0.3 },
    ]);
    expect(signedArea(offsetContour(chamfered, -1))).toBeCloseTo(8 * 6, 9);
  });
});

describe('offset against a polygon offset', () => {
  const small = fc.double({ min: 0.02, max: 0.5, noNaN: true });
  it('agrees for discs with slots at kerf widths', () => {
    const disc = fc.record({
      radius: fc.double({ min: 6, max: 40, noNaN: true }),
      slot: fc.double({ min: 1.2, max: 4, noNaN: true }),
      depth: fc.double({ min: 1, max: 5, noNaN: true }),
    });
    fc.assert(
      fc.property(disc, small, fc.boolean(), (size, d, grows) => {
        fc.pre(!grows || 2 * d < size.slot - 0.01);
        expectAsPolygonOffset(slottedDisc(size), grows ? d : -d, 'sharp');
        expectAsPolygonOffset(slottedDisc(size), grows ? d : -d, 'round');
      }),
      { numRuns: 400, seed: 21 },
    );
  });

  it('agrees for star polygons and notched plates both ways', () => {
    fc.assert(
      fc.property(fc.oneof(starPolygon, notched), small, fc.boolean(), fc.boolean(), (contour, d, grows, round) => {
        expectAsPolygonOffset(contour, grows ? d : -d, round ? 'round' : 'sharp');
      }),
      { numRuns: 2000, seed: 22 },
    );
  });

  it('gives a right contour or says why not, for distances as large as the shape', () => {
    let refused = 0;
    fc.assert(
      fc.property(fc.oneof(starPolygon, notched), fc.double({ min: -12, max: 12, noNaN: true }), (contour, d) => {
        fc.pre(Math.abs(d) > 0.01);
        try {
          expectAsPolygonOffset(contour, d, 'round');
        } catch (error) {
          expect(String(error)).toMatch(/^Error: offset by /);
          refused++;
        }
      }),
      { numRuns: 1000, seed: 23 },
    );
    expect(refused).toBeLessThan(900);
  });
});

describe('what cannot be offset', () => {
  it('says so', () => {
    expect(() => offsetContour(circleContour(centre, 2), -2)).toThrow('a circle of radius 2 mm disappears');
    expect(() => offsetContour(rectangleContour({ centre, widthMm: 4, heightMm: 9 }), -2)).toThrow('offset by -2 mm');
    expect(() => offsetContour(rectangleContour({ centre, widthMm: 4, heightMm: 9 }), -30)).toThrow('offset by -30 mm');
    expect(() => offsetContour(circleContour(centre, 2), Number.NaN)).toThrow('not a finite number');
    const slot = slottedDisc({ radius: 10, slot: 1, depth: 3 });
    expect(() => offsetContour(slot, 0.6)).toThrow('offset by 0.6 mm');
  });
});

describe('the path of a cutter', () => {
  const outline = {
    outer: rectangleContour({ centre, widthMm: 30, heightMm: 20 }),
    cutouts: [reverseContour(rectangleContour({ centre, widthMm: 8, heightMm: 4 }))],
    holes: [{ purpose: 'fixing', centre: { x: 10, y: 5 }, diameterMm: 3.4, plated: false } as const],
  };

  it('lies half a kerf outside the part and inside its openings', () => {
    const path = toolPath(outline, {
      kerfMm: 0.2,
      compensateKerf: true,
      insideCorners: 'as-drawn',
      smallestRadiusMm: 0,
    });
    expect([path.follows, path.offsetMm]).toEqual(['cut-centre', 0.1]);
    expect(signedArea(path.outer)).toBeCloseTo(30.2 * 20.2, 9);
    expect(signedArea(path.cutouts[0] ?? path.outer)).toBeCloseTo(-7.8 * 3.8, 9);
    expect(perimeter(path.holes[0] ?? path.outer)).toBeCloseTo(3.2 * Math.PI, 9);
  });

  it('is the finished outline when the machine makes up for its kerf', () => {
    const path = toolPath(outline, {
      kerfMm: 0.2,
      compensateKerf: false,
      insideCorners: 'as-drawn',
      smallestRadiusMm: 0,
    });
    expect([path.follows, path.offsetMm]).toEqual(['finished-outline', 0]);
    expect(path.outer).toEqual(outline.outer);
  });
});
