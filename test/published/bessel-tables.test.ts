/**
 * Bessel functions of the first kind.
 * Source: Abramowitz & Stegun, Handbook of Mathematical Functions, table 9.1 and table 9.5 (memory); every value was
 * compared with a general numerical library (computed).
 */
import { besselJ } from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';

describe('Bessel functions', () => {
  it.each([
    [0, 0, 1],
    [0, 1, 0.7651976865579666],
    [0, 2.4, 0.002507683297243813],
    [0, 10, -0.2459357644513483],
    [1, 1, 0.44005058574493355],
    [1, 5, -0.3275791375914652],
    [2, 1, 0.1149034849319005],
    [2, 5, 0.04656511627775222],
    [2, 40, -0.0010649746823580396],
  ])('J%i(%d)', (order, x, value) => {
    expect(besselJ(order, x)).toBeCloseTo(value, 9);
  });

  it('has its first zero and its first turning point where the table says', () => {
    expect(Math.abs(besselJ(0, 2.404825557695773))).toBeLessThan(1e-13);
    expect(Math.abs(besselJ(0, 1.8411837813406593) - besselJ(2, 1.8411837813406593))).toBeLessThan(1e-12);
  });
});
