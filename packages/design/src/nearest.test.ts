import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editDistance, nearestWords } from './nearest.ts';

describe('editDistance', () => {
  // kitten/sitting 3 and saturday/sunday 3 are the textbook pairs (confirmed).
  it.each([
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['', 'abc', 3],
    ['lenght', 'length', 2],
    ['same', 'same', 0],
  ])('%s to %s is %i', (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance);
  });

  it('is a distance: symmetric, zero only for the same word, and no detour is shorter', () => {
    const word = fc.string({ maxLength: 8 });
    fc.assert(
      fc.property(word, word, word, (a, b, c) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, b) === 0).toBe(a === b);
        expect(editDistance(a, c)).toBeLessThanOrEqual(editDistance(a, b) + editDistance(b, c));
      }),
      { seed: 31 },
    );
  });
});

describe('nearestWords', () => {
  it('gives the nearest first and none that has nothing in common', () => {
    expect(nearestWords('lenght', ['width', 'length', 'layer'], 2)[0]).toBe('length');
    // Two letters from either.
    expect(nearestWords('5.8 GHz', ['2.4 GHz', '5 GHz', '6 GHz'], 1)).toEqual(['5 GHz']);
    expect(nearestWords('zzzzzz', ['width', 'length'], 2)).toEqual([]);
    expect(nearestWords('x'.repeat(1000), ['x'.repeat(1000)], 1)).toEqual([]);
  });
});
