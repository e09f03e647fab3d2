import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { smoothCurve } from './smooth-curve.ts';

describe('a smooth curve through points', () => {
  it('meets its points, is a straight line through points on one, and stays level outside', () => {
    const line = smoothCurve([1, 2, 4, 7], [3, 5, 9, 15]);
    for (const x of [1, 1.3, 2, 3.1, 5.5, 7]) expect(line(x)).toBeCloseTo(2 * x + 1, 12);
    expect([line(0), line(9)]).toEqual([3, 15]);
    expect(smoothCurve([5], [7])(100)).toBe(7);
  });
  it('follows a parabola that rises, by hand: harmonic slopes at 1 are 2 * 1 * 3 / (1 + 3) = 1.5', () => {
    // x^2 at 0, 1, 2: level at the left end (1.5 - 0.5 * 3 = 0); Hermite at one half: 0.5 * 1 + (0 - 1.5) / 8 = 0.3125.
    expect(smoothCurve([0, 1, 2], [0, 1, 4])(0.5)).toBeCloseTo(0.3125, 12);
  });
  it('goes nowhere that its points do not', () => {
    const places = fc.uniqueArray(fc.integer({ min: 0, max: 1000 }), { minLength: 2, maxLength: 9 });
    fc.assert(
      fc.property(places, fc.array(fc.integer({ min: -40, max: 20 }), { minLength: 9, maxLength: 9 }), (at, values) => {
        const x = [...at].sort((a, b) => a - b);
        const curve = smoothCurve(x, values.slice(0, x.length));
        for (let i = 1; i < x.length; i++) {
          const [low, high] = [
            Math.min(values[i - 1] ?? 0, values[i] ?? 0),
            Math.max(values[i - 1] ?? 0, values[i] ?? 0),
          ];
          for (const share of [0.1, 0.3, 0.5, 0.7, 0.9]) {
            const value = curve((x[i - 1] ?? 0) + share * ((x[i] ?? 0) - (x[i - 1] ?? 0)));
            expect(value).toBeGreaterThanOrEqual(low - 1e-9);
            expect(value).toBeLessThanOrEqual(high + 1e-9);
          }
        }
      }),
    );
  });
  it('refuses places that do not rise, and lists that do not fit', () => {
    expect(() => smoothCurve([1, 1], [0, 0])).toThrow(/must rise; 1 follows 1/);
    expect(() => smoothCurve([1], [])).toThrow(RangeError);
    expect(() => smoothCurve([], [])).toThrow(RangeError);
  });
});
