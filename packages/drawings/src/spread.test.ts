import fc from 'fast-check';
import { expect, test } from 'vitest';
import { spread, spreadSized } from './spread.ts';

const rising = fc
  .array(fc.double({ min: 0, max: 200, noNaN: true }), { maxLength: 40 })
  .map((list) => list.sort((a, b) => a - b));

test('neighbours end up at least the gap apart, in order, their middle where it was', () => {
  fc.assert(
    fc.property(rising, fc.double({ min: 0.1, max: 10, noNaN: true }), (wanted, gap) => {
      const places = spread(wanted, gap);
      places.slice(1).forEach((place, index) => {
        expect(place - (places[index] ?? 0)).toBeGreaterThan(gap - 1e-6);
      });
      const total = (list: readonly number[]): number => list.reduce((sum, value) => sum + value, 0);
      expect(total(places)).toBeCloseTo(total(wanted), 5);
    }),
  );
});

test('what has room stays where it is', () => {
  expect(spread([0, 10, 20], 3)).toEqual([0, 10, 20]);
});

test('a crowd spreads about its middle', () => {
  expect(spread([10, 10, 10], 3)).toEqual([7, 10, 13]);
});

test('pieces of different size do not cover each other', () => {
  const sizes = [4, 10, 2];
  const places = spreadSized([5, 5, 5], sizes, 1);
  expect((places[1] ?? 0) - (places[0] ?? 0)).toBeCloseTo(8);
  expect((places[2] ?? 0) - (places[1] ?? 0)).toBeCloseTo(7);
});
