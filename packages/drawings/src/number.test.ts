import { expect, test } from 'vitest';
import { plain } from './number.ts';

test('people read lengths without trailing zeros and with a true minus sign', () => {
  expect([3.4, 3, -7.25, 0.001, 120.1].map((value) => plain(value))).toEqual(['3.4', '3', '\u22127.25', '0', '120.1']);
});

test('what is not a finite number is refused', () => {
  expect(() => plain(Number.POSITIVE_INFINITY)).toThrow('not a finite number');
});
