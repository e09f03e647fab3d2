import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { niceTicks, stepDown, stepUp, tickTexts } from './ticks.ts';

describe('niceTicks', () => {
  // By hand: the round steps are 1, 2 and 5 times a power of ten.
  test.each([
    [0, 10, 5, ['0', '2', '4', '6', '8', '10']],
    [5.15, 5.85, 7, ['5.2', '5.3', '5.4', '5.5', '5.6', '5.7', '5.8']],
    [-40, 0, 8, ['−40', '−35', '−30', '−25', '−20', '−15', '−10', '−5', '0']],
    [-0.05, 0.05, 4, ['−0.04', '−0.02', '0.00', '0.02', '0.04']],
    [0, 1_200_000, 3, ['0', '500000', '1000000']],
    // Steps far below a millionth of the numbers are told apart all the same.
    [2575.1007, 2575.1012, 3, ['2575.1008', '2575.1010', '2575.1012']],
  ])('%f to %f in about %i', (from, to, count, texts) => {
    expect(niceTicks(from, to, count).texts).toEqual(texts);
  });

  test('lie within the span, evenly, by a round step', () => {
    const span = fc.tuple(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
      fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
    );
    fc.assert(
      fc.property(span, fc.integer({ min: 2, max: 12 }), ([from, length], count) => {
        const to = from + length;
        const { values, texts } = niceTicks(from, to, count);
        expect(new Set(texts).size).toBe(values.length);
        expect(values.length).toBeGreaterThanOrEqual(1);
        expect(values.length).toBeLessThanOrEqual(2.5 * count + 1);
        for (const value of values) {
          expect(value).toBeGreaterThanOrEqual(from - length * 1e-9);
          expect(value).toBeLessThanOrEqual(to + length * 1e-9);
        }
        const [first, second] = values;
        if (first === undefined || second === undefined) return;
        const step = second - first;
        const leading = step / 10 ** Math.floor(Math.log10(step));
        expect(Math.min(...[1, 2, 5, 10].map((round) => Math.abs(leading - round)))).toBeLessThan(1e-3);
      }),
    );
  });

  test.each([
    [1, 1],
    [2, 1],
    [0, Number.POSITIVE_INFINITY],
    [Number.NaN, 1],
  ])('refuses %f to %f', (from, to) => {
    expect(() => niceTicks(from, to, 5)).toThrow(RangeError);
  });
});

test('texts never show a minus zero', () => {
  expect(tickTexts([-0, -0.5])).toEqual(['0.0', '−0.5']);
});

test('steps keep what lies on them', () => {
  expect([stepDown(-20, 5), stepUp(15, 5), stepDown(-20.1, 5), stepUp(14.2, 5)]).toEqual([-20, 15, -25, 15]);
});
