import { expect, it } from 'vitest';
import { normalRandom, seededRandom } from './random.ts';

const many = (random: () => number, count = 20_000) => Array.from({ length: count }, random);
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

it('gives the same numbers for the same seed, others for another', () => {
  expect(many(seededRandom(5), 10)).toEqual(many(seededRandom(5), 10));
  expect(many(seededRandom(5), 10)).not.toEqual(many(seededRandom(6), 10));
});

// Uniform: mean 1/2 ± 4·0.2887/√20000 = ±0.0082; each tenth holds 2000 ± 4·42; neighbours are not correlated. Normal: the moments 0, 1, 0, 3.
it('spreads evenly, and its normal numbers have the moments of the normal distribution', () => {
  const even = many(seededRandom(1));
  expect(Math.abs(mean(even) - 0.5)).toBeLessThan(0.0082);
  for (let tenth = 0; tenth < 10; tenth++) {
    const count = even.filter((value) => Math.floor(10 * value) === tenth).length;
    expect(Math.abs(count - 2000)).toBeLessThan(170);
  }
  const pairs = even.slice(1).map((value, i) => (value - 0.5) * ((even[i] ?? 0) - 0.5));
  expect(Math.abs(mean(pairs))).toBeLessThan(0.0024);
  const normal = many(normalRandom(seededRandom(2)));
  const moment = (power: number) => mean(normal.map((value) => value ** power));
  expect(Math.abs(moment(1))).toBeLessThan(0.03);
  expect(Math.abs(moment(2) - 1)).toBeLessThan(0.04);
  expect(Math.abs(moment(3))).toBeLessThan(0.1);
  expect(Math.abs(moment(4) - 3)).toBeLessThan(0.28);
});
