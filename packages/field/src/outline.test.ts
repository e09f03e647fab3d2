import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { outlineArea, sheetDistance, signedDistance } from './outline.ts';
import type { Outline, Sheet } from './scene.ts';

const square: Outline = {
  kind: 'polygon',
  points: [
    [0, 0],
    [2, 0],
    [2, 2],
    [0, 2],
  ],
};
const disc: Outline = { kind: 'disc', centre: [1, 1], radius: 0.5 };

describe('distance to an outline', () => {
  it('is negative inside and measured to the nearest point of the edge', () => {
    expect(signedDistance(square, 1, 1)).toBe(-1);
    expect(signedDistance(square, 3, 1)).toBe(1);
    expect(signedDistance(square, 3, 3)).toBeCloseTo(Math.SQRT2, 12);
    expect(signedDistance(disc, 1, 1)).toBe(-0.5);
  });

  it('counts a hole as outside', () => {
    const sheet: Sheet = { name: '', normal: 'z', at: 0, thickness: 0, outline: square, holes: [disc] };
    expect(sheetDistance(sheet, 1, 1)).toBe(0.5);
    expect(sheetDistance(sheet, 1, 1.75)).toBe(-0.25);
  });

  it('does not change when the polygon is walked the other way', () => {
    const back: Outline = { kind: 'polygon', points: [...square.points].reverse() };
    const place = fc.double({ min: -3, max: 5, noNaN: true });
    fc.assert(
      fc.property(place, place, (u, v) => {
        expect(signedDistance(back, u, v)).toBeCloseTo(signedDistance(square, u, v), 12);
      }),
      { seed: 3 },
    );
  });

  it('goes with an area', () => {
    expect(outlineArea(square)).toBe(4);
    expect(outlineArea(disc)).toBeCloseTo(Math.PI / 4, 12);
  });
});
