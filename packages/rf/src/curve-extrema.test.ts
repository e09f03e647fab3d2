import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { curveDips, curvePeaks } from './curve-extrema.ts';

describe('peaks of a sampled curve', () => {
  it('are placed where a parabola has its vertex, whatever the spacing', () => {
    const x = [0, 1, 1.5, 4, 5];
    const [peak] = curvePeaks(
      x,
      x.map((value) => 7 - (value - 1.8) ** 2),
    );
    expect(peak?.x).toBeCloseTo(1.8, 12);
    expect(peak?.y).toBeCloseTo(7, 12);
  });

  it('have the height over the higher saddle as prominence; the highest has its greater fall', () => {
    const y = [0, 5, 3, 4, 1, 9, 2];
    expect(curvePeaks([0, 1, 2, 3, 4, 5, 6], y).map(({ index, prominence }) => [index, prominence])).toEqual([
      [1, 4],
      [3, 1],
      [5, 9],
    ]);
    expect(curvePeaks([0, 1, 2, 3, 4, 5, 6], y, 2).map(({ index }) => index)).toEqual([1, 5]);
  });

  it('take the middle of a plateau and leave out ends and gaps', () => {
    expect(curvePeaks([0, 1, 2, 3], [1, 4, 4, 1]).map(({ x }) => x)).toEqual([1.5]);
    expect(curvePeaks([0, 1, 2], [3, 2, 1])).toEqual([]);
    expect(curvePeaks([0, 1, 2, 3, 4], [1, Number.NaN, 2, 1, 0]).map(({ x }) => x)).toEqual([2]);
  });

  it('agree with a search without cleverness', () => {
    const curve = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 3, maxLength: 30 });
    fc.assert(
      fc.property(curve, (y) => {
        const x = y.map((_, i) => i);
        for (const { index, prominence } of curvePeaks(x, y)) {
          const top = y[index] ?? 0;
          const side = (values: readonly number[]) => {
            const higher = values.findIndex((value) => value > top);
            return { higher, fall: top - Math.min(top, ...(higher < 0 ? values : values.slice(0, higher))) };
          };
          const sides = [side(y.slice(0, index).reverse()), side(y.slice(index + 1))];
          const closed = sides.filter(({ higher }) => higher >= 0).map(({ fall }) => fall);
          expect(prominence).toBe(closed.length > 0 ? Math.min(...closed) : Math.max(...sides.map(({ fall }) => fall)));
        }
      }),
      { seed: 3 },
    );
  });

  it('turned over are dips', () => {
    expect(curveDips([0, 1, 2], [3, 1, 3])).toEqual([{ x: 1, y: 1, index: 1, prominence: 2 }]);
  });
});
