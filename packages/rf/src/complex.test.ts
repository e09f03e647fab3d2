import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  add,
  angle,
  type Complex,
  complex,
  conjugate,
  cosh,
  divide,
  magnitude,
  multiply,
  polar,
  reciprocal,
  sinh,
  subtract,
} from './complex.ts';

const part = fc.double({ min: -1e3, max: 1e3, noNaN: true });
const any = fc.record({ re: part, im: part });
const notSmall = any.filter((a) => magnitude(a) > 1e-3);
function close(a: Complex, b: Complex, size = 1): void {
  expect(magnitude(subtract(a, b))).toBeLessThanOrEqual(1e-11 * (size + magnitude(b)));
}
const seeded = { seed: 20 } as const;

describe('complex numbers', () => {
  it('divides back what it multiplied', () => {
    fc.assert(
      fc.property(any, notSmall, (a, b) => close(divide(multiply(a, b), b), a, 1e3)),
      seeded,
    );
  });

  it('has its reciprocal', () => {
    fc.assert(
      fc.property(notSmall, (a) => close(multiply(a, reciprocal(a)), complex(1))),
      seeded,
    );
  });

  it('survives parts near the ends of the range', () => {
    close(divide(complex(1e300, 1e300), complex(1e300, 1e300)), complex(1));
  });

  it('goes to polar form and back', () => {
    fc.assert(
      fc.property(notSmall, (a) => close(polar(magnitude(a), angle(a)), a)),
      seeded,
    );
  });

  it('keeps cosh^2 - sinh^2 = 1', () => {
    const small = fc.record({
      re: fc.double({ min: -3, max: 3, noNaN: true }),
      im: fc.double({ min: -9, max: 9, noNaN: true }),
    });
    fc.assert(
      fc.property(small, (a) => {
        const [c, s] = [cosh(a), sinh(a)];
        close(subtract(multiply(c, c), multiply(s, s)), complex(1), magnitude(c) ** 2);
      }),
      seeded,
    );
  });

  it('makes a real number of a number times its conjugate', () => {
    const a = add(complex(3), complex(0, 4));
    expect(multiply(a, conjugate(a))).toEqual({ re: 25, im: 0 });
  });
});
