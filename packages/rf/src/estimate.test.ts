import { describe, expect, it } from 'vitest';
import { absoluteError, errorInUnits, estimate, outside, relativeError } from './estimate.ts';

const base = { value: -8, unit: 'dB', error: relativeError(0.25, 'here'), leavesOut: [] } as const;

describe('estimate', () => {
  it('is in range while no limit is passed', () => {
    expect(estimate({ ...base, limits: [undefined, outside('x', 3, 1, 3)] })).toMatchObject({
      inRange: true,
      reasons: [],
    });
  });

  it('keeps the value out of range and says why', () => {
    const found = estimate({ ...base, limits: [outside('The ratio', 0.12345, 1), outside('The size', 4, 1, 3)] });
    expect(found.value).toBe(-8);
    expect(found.inRange).toBe(false);
    expect(found.reasons).toEqual([
      'The ratio is 0.123; the formula holds from 1 up.',
      'The size is 4; the formula holds from 1 to 3.',
    ]);
  });

  it('treats a value that is no number as outside', () => {
    expect(outside('x', Number.NaN, 0, 1)).toContain('NaN');
  });

  it('gives its error in units', () => {
    expect(errorInUnits(base)).toBe(2);
    expect(errorInUnits({ value: 3, error: absoluteError(0.5, 'here') })).toBe(0.5);
  });
});
