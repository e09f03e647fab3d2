import { expect, it } from 'vitest';
import { searchBox } from './search.ts';

// The six-hump camel back: minima of -1.0316 at (0.0898, -0.7126) and its opposite, and four higher ones (Dixon and Szegő, Towards Global
// Optimisation 2, 1978; memory, and -1.0316 computed from the formula at that point).
it('finds the deepest of several valleys from the top of another', () => {
  const cost = ([x = 0, y = 0]: readonly number[]) =>
    (4 - 2.1 * x ** 2 + x ** 4 / 3) * x ** 2 + x * y + (-4 + 4 * y ** 2) * y ** 2;
  const found = searchBox({ low: [-3, -2], high: [3, 2], cost, starts: [[1.6, 0.57]], seed: 3 });
  expect(found.cost).toBeCloseTo(-1.0316, 3);
});

it('stays in its box, whose corner is the best here, and repeats itself', () => {
  const search = {
    low: [1, -2],
    high: [3, 2],
    cost: ([a = 0, b = 0]: readonly number[]) => a + Math.abs(b - 9),
    starts: [],
    seed: 1,
  };
  const found = searchBox(search);
  expect(found.point[0]).toBeCloseTo(1, 6);
  expect(found.point[1]).toBeCloseTo(2, 6);
  expect(searchBox(search)).toEqual(found);
});
