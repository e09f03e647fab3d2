import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bounds, signedArea } from './contour-measure.ts';
import { mitreFraction, ribbon } from './ribbon.ts';

describe('ribbon', () => {
  it('is a rectangle along a straight way', () => {
    const line = ribbon(
      [
        { x: 0, y: 0 },
        { x: 10, y: 0 },
      ],
      2,
    );
    expect(signedArea(line)).toBeCloseTo(20, 12);
    expect(bounds(line)).toEqual({ minX: 0, maxX: 10, minY: -1, maxY: 1 });
  });

  it('fills a square corner: legs plus the corner square', () => {
    const line = ribbon(
      [
        { x: 0, y: 0 },
        { x: 10, y: 0 },
        { x: 10, y: 8 },
      ],
      2,
    );
    expect(signedArea(line)).toBeCloseTo(9 * 2 + 7 * 2 + 4, 12);
  });

  it('cuts the stated part of the diagonal off the outside of a corner', () => {
    const width = 2;
    const square = ribbon(
      [
        { x: 0, y: 0 },
        { x: 10, y: 0 },
        { x: 10, y: 8 },
      ],
      width,
    );
    const cut = ribbon(
      [
        { x: 0, y: 0 },
        { x: 10, y: 0 },
        { x: 10, y: 8 },
      ],
      width,
      0.6,
    );
    // A right-angled triangle whose height on the diagonal is 0.6 of the corner square's diagonal.
    const height = 0.6 * width * Math.SQRT2;
    expect(signedArea(square) - signedArea(cut)).toBeCloseTo(height * height, 12);
  });

  it('has the same area whichever way it turns and whichever end it starts from (property)', () => {
    const leg = fc.double({ min: 5, max: 40, noNaN: true });
    fc.assert(
      fc.property(leg, leg, leg, fc.boolean(), (a, b, c, left) => {
        const turn = left ? 1 : -1;
        const way = [
          { x: 0, y: 0 },
          { x: a, y: 0 },
          { x: a, y: turn * b },
          { x: a + c, y: turn * b },
        ];
        const area = signedArea(ribbon(way, 1.5, 0.5));
        expect(signedArea(ribbon([...way].reverse(), 1.5, 0.5))).toBeCloseTo(area, 9);
        expect(area).toBeCloseTo(1.5 * (a + b + c) - 2 * (0.5 * 1.5 * Math.SQRT2) ** 2, 9);
      }),
    );
  });

  it('refuses a way with two corners on one point', () => {
    expect(() =>
      ribbon(
        [
          { x: 1, y: 1 },
          { x: 1, y: 1 },
        ],
        2,
      ),
    ).toThrow(RangeError);
  });
});

describe('mitreFraction', () => {
  it('tends to 52 % for wide lines (Douville & James 1978, from memory)', () => {
    expect(mitreFraction(10, 1)).toBeCloseTo(0.52, 4);
    expect(mitreFraction(1, 1)).toBeCloseTo(0.52 + 0.65 * Math.exp(-1.35), 12);
  });
});
