import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fixed } from './number.ts';

test('numbers in files have at most four decimals, no exponent and no negative zero', () => {
  expect([1e-9, -0.00001, 0.1 + 0.2, 100, 12.34567, -5.5].map(fixed)).toEqual([
    '0',
    '0',
    '0.3',
    '100',
    '12.3457',
    '-5.5',
  ]);
  fc.assert(
    fc.property(fc.double({ min: -1e5, max: 1e5, noNaN: true }), (value) => {
      expect(fixed(value)).toMatch(/^-?\d+(\.\d{1,4})?$/);
      expect(Math.abs(Number(fixed(value)) - value)).toBeLessThanOrEqual(0.5001e-4);
    }),
  );
});

test('what is not a finite number is refused', () => {
  expect(() => fixed(Number.NaN)).toThrow('not a finite number');
  expect(() => fixed(Number.POSITIVE_INFINITY)).toThrow('not a finite number');
});
