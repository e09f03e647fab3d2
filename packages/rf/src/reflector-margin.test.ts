import { expect, it } from 'vitest';
import { minimumReflectorMargin } from './reflector-margin.ts';

it('asks for a quarter wavelength over a usual gap', () => {
  const { marginM, decidedBy } = minimumReflectorMargin({ lowHz: 2.4e9, gapM: 3e-3 });
  expect(marginM).toBeCloseTo(299792458 / 2.4e9 / 4, 12);
  expect(decidedBy).toBe('quarter-wave');
});

it('asks for six gaps when they are more', () => {
  expect(minimumReflectorMargin({ lowHz: 5.5e9, gapM: 4e-3 })).toEqual({ marginM: 6 * 4e-3, decidedBy: 'six-gaps' });
});

it('refuses a gap of 0', () => {
  expect(() => minimumReflectorMargin({ lowHz: 5.5e9, gapM: 0 })).toThrow(/gapM/);
});
