import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { signedArea } from './contour-measure.ts';
import { polygonContour } from './contours.ts';
import { selfCrossings } from './crossings.ts';
import { relieveInsideCorners, roundInsideCorners } from './inside-corners.ts';
import { offsetContour } from './offset.ts';
import type { Contour } from './outline.ts';
import { contourPieces } from './pieces.ts';
import { turnAt } from './turn-at.ts';

/** An L of 40 x 30 mm with one inside corner at (15, 10). */
const ell = polygonContour([
  { x: 0, y: 0 },
  { x: 40, y: 0 },
  { x: 40, y: 10 },
  { x: 15, y: 10 },
  { x: 15, y: 30 },
  { x: 0, y: 30 },
]);

/** A plate with a notch from above, `w` wide and `d` deep: two inside corners. */
const notched = (w: number, d: number): Contour =>
  polygonContour([
    { x: -30, y: -20 },
    { x: 30, y: -20 },
    { x: 30, y: 20 },
    { x: w / 2, y: 20 },
    { x: w / 2, y: 20 - d },
    { x: -w / 2, y: 20 - d },
    { x: -w / 2, y: 20 },
    { x: -30, y: 20 },
  ]);

const sharpInside = (contour: Contour): number => {
  const pieces = contourPieces(contour);
  return pieces.filter((piece, i) => turnAt(piece, pieces[(i + 1) % pieces.length] ?? piece) < -1e-3).length;
};

describe('fillets', () => {
  test('one square corner: the area grows by r² (1 − π/4), computed, and no sharp inside corner is left', () => {
    const { contour, changed, left } = roundInsideCorners(ell, 1.1);
    expect([changed, left]).toEqual([1, 0]);
    expect(signedArea(contour)).toBeCloseTo(40 * 10 + 15 * 20 + 1.1 ** 2 * (1 - Math.PI / 4), 9);
    expect(sharpInside(contour)).toBe(0);
    const arc = contourPieces(contour).find((piece) => piece.kind === 'arc');
    expect(arc).toMatchObject({ radiusMm: expect.closeTo(1.1, 9), sense: 'cw' });
    expect(arc?.kind === 'arc' && arc.centre).toEqual({ x: expect.closeTo(16.1, 9), y: expect.closeTo(11.1, 9) });
  });

  test('between a line and an arc it is tangent to both', () => {
    // A disc of radius 10 on a bar 6 mm wide, as a land on a strip: each side of the bar meets the disc in an inside corner.
    const x = Math.sqrt(100 - 9);
    const land: Contour = {
      kind: 'path',
      start: { x: 30, y: -3 },
      segments: [
        { kind: 'line', to: { x: 30, y: 3 } },
        { kind: 'line', to: { x, y: 3 } },
        { kind: 'arc', to: { x, y: -3 }, centre: { x: 0, y: 0 }, sense: 'ccw' },
        { kind: 'line', to: { x: 30, y: -3 } },
      ],
    };
    const { contour, changed } = roundInsideCorners(land, 2);
    expect(changed).toBe(2);
    expect(sharpInside(contour)).toBe(0);
    const fillets = contourPieces(contour).filter((piece) => piece.kind === 'arc' && piece.sense === 'cw');
    for (const piece of fillets) {
      if (piece.kind !== 'arc') continue;
      // Touching from outside: distances of centres are sums of radii, and to the line the radius (plane geometry, computed).
      expect(Math.hypot(piece.centre.x, piece.centre.y)).toBeCloseTo(12, 9);
      expect(Math.abs(piece.centre.y)).toBeCloseTo(5, 9);
    }
  });

  test('is what growing and shrinking by the radius leaves (closing of a set, computed another way)', () => {
    const size = fc.record({
      w: fc.double({ min: 6, max: 50, noNaN: true }),
      d: fc.double({ min: 4, max: 35, noNaN: true }),
      r: fc.double({ min: 0.1, max: 2.5, noNaN: true }),
    });
    fc.assert(
      fc.property(size, ({ w, d, r }) => {
        const { contour } = roundInsideCorners(notched(w, d), r);
        const grown = offsetContour(notched(w, d), r, { corners: 'round' });
        const closed = offsetContour(grown, -r, { corners: 'round' });
        expect(signedArea(contour)).toBeCloseTo(signedArea(closed), 6);
      }),
      { seed: 20260518, numRuns: 60 },
    );
  });

  test('leaves a corner whose sides are too short, and says so', () => {
    const { changed, left } = roundInsideCorners(notched(3, 10), 2);
    expect([changed, left]).toEqual([1, 1]);
  });

  test('a clockwise contour is a cut-out: its inside corners are those of the opening', () => {
    const opening: Contour = {
      kind: 'path',
      start: { x: 0, y: 0 },
      segments: [
        { kind: 'line', to: { x: 0, y: 8 } },
        { kind: 'line', to: { x: 12, y: 8 } },
        { kind: 'line', to: { x: 12, y: 0 } },
        { kind: 'line', to: { x: 0, y: 0 } },
      ],
    };
    const { contour, changed } = roundInsideCorners(opening, 1);
    expect(changed).toBe(4);
    expect(signedArea(contour)).toBeCloseTo(-(96 - (4 - Math.PI)), 9);
  });
});

describe('dog-bone reliefs', () => {
  test('run through the corner and open both sides by √2 r (90°, computed)', () => {
    const { contour, changed } = relieveInsideCorners(ell, 1.1);
    expect(changed).toBe(1);
    const arc = contourPieces(contour).find((piece) => piece.kind === 'arc');
    if (arc?.kind !== 'arc') throw new Error('no relief');
    expect(Math.hypot(arc.centre.x - 15, arc.centre.y - 10)).toBeCloseTo(1.1, 9);
    expect(arc.from).toEqual({ x: expect.closeTo(15 + Math.SQRT2 * 1.1, 9), y: expect.closeTo(10, 9) });
    expect(arc.to).toEqual({ x: expect.closeTo(15, 9), y: expect.closeTo(10 + Math.SQRT2 * 1.1, 9) });
    // Half a disc on a chord through the centre, less the right triangle of the corner: r² (π/2 − 1).
    expect(signedArea(contour)).toBeCloseTo(700 - 1.1 ** 2 * (Math.PI / 2 - 1), 9);
  });

  test('a square corner of another part fits: no material is left within the nominal corner', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 2, noNaN: true }), fc.double({ min: 8, max: 40, noNaN: true }), (r, w) => {
        const plain = notched(w, 12);
        const { contour } = relieveInsideCorners(plain, r);
        expect(signedArea(contour)).toBeLessThan(signedArea(plain));
        expect(selfCrossings(contour)).toEqual([]);
        // The path of a cutter of nearly that radius reaches both nominal corners exactly at its rim.
        const path = offsetContour(contour, r / 1.1);
        const centres = contourPieces(path).flatMap((p) => (p.kind === 'arc' ? [p] : []));
        for (const x of [-w / 2, w / 2])
          expect(
            centres.some((a) => Math.abs(Math.hypot(a.centre.x - x, a.centre.y - 8) - (a.radiusMm + r / 1.1)) < 1e-6),
          ).toBe(true);
      }),
      { seed: 20260519, numRuns: 60 },
    );
  });

  test('that would break through into another edge throws', () => {
    const thin = polygonContour([
      { x: 0, y: 0 },
      { x: 40, y: 0 },
      { x: 40, y: 20 },
      { x: 30, y: 20 },
      { x: 30, y: 0.2 },
      { x: 10, y: 0.2 },
      { x: 10, y: 20 },
      { x: 0, y: 20 },
    ]);
    expect(() => relieveInsideCorners(thin, 1)).toThrow(/cross itself/);
  });
});
