import { describe, expect, it } from 'vitest';
import { coaxImpedance, coaxInnerDiameter, coaxLine } from './coax.ts';

describe('coax', () => {
  it('gives the inner diameter back', () => {
    const innerM = coaxInnerDiameter(50, { outerM: 3e-3, permittivity: 2.03 });
    expect(coaxImpedance({ innerM, outerM: 3e-3, permittivity: 2.03 })).toBeCloseTo(50, 9);
  });

  it('loses as the root of frequency in metal and in proportion in its filling', () => {
    const cable = { innerM: 1e-3, outerM: 3.3e-3, permittivity: 2.03 };
    const filled = (f: number) =>
      coaxLine(cable, f, { innerSurfaceOhm: 0, outerSurfaceOhm: 0, lossTangent: 4e-4 }).attenuation;
    expect(filled(4e9) / filled(2e9)).toBeCloseTo(2, 12);
  });

  it('refuses an inner conductor as wide as the outer', () => {
    expect(() => coaxImpedance({ innerM: 3e-3, outerM: 3e-3, permittivity: 1 })).toThrow(/outerM/);
  });
});
