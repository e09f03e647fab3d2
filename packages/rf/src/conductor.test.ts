import { describe, expect, it } from 'vitest';
import { roughnessFactor, skinDepth, surfaceResistance } from './conductor.ts';

describe('metal surfaces', () => {
  it('doubles the surface resistance at four times the frequency', () => {
    expect(surfaceResistance(4e9, 2e7) / surfaceResistance(1e9, 2e7)).toBeCloseTo(2, 12);
  });

  it('leaves a smooth surface alone and at most doubles a rough one', () => {
    expect(roughnessFactor(0, 1e-6)).toBe(1);
    expect(roughnessFactor(1e-6, 1e-6)).toBeCloseTo(1 + (2 / Math.PI) * Math.atan(1.4), 12);
    expect(roughnessFactor(1, 1e-6)).toBeCloseTo(2, 6);
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('refuses a conductivity of %d by its name', (sigma) => {
    expect(() => skinDepth(1e9, sigma)).toThrow(/conductivity must be a finite number above 0/);
  });
});
