import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rodAttenuation, rodCentreHeight, rodDiameter, rodImpedance } from './rod-over-plane.ts';
import { slopeAt } from './solve.ts';

describe('rod over a plane', () => {
  it('gives height and diameter back from the impedance', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 250, noNaN: true }),
        fc.double({ min: 1, max: 4, noNaN: true }),
        (z0, permittivity) => {
          const centreM = rodCentreHeight(z0, { diameterM: 2e-3, permittivity });
          expect(rodImpedance({ diameterM: 2e-3, centreM, permittivity }).value).toBeCloseTo(z0, 6);
          expect(rodDiameter(z0, { centreM, permittivity })).toBeCloseTo(2e-3, 10);
        },
      ),
      { seed: 11 },
    );
  });

  it('tends to 60 ln(4 s/d) high up', () => {
    const z0 = rodImpedance({ diameterM: 1e-3, centreM: 0.1, permittivity: 1 }).value;
    expect(z0 / (59.96 * Math.log(400))).toBeCloseTo(1, 4);
  });

  it("loses as Wheeler's rule says when the metal is drawn back by steps", () => {
    const [diameterM, centreM] = [2e-3, 2.4e-3];
    const z0 = (depth: number) =>
      rodImpedance({ diameterM: diameterM - 2 * depth, centreM: centreM + depth, permittivity: 1 }).value;
    const resistance = (0.03 / 376.730313) * slopeAt(z0, 0, 1e-8);
    expect(rodAttenuation({ diameterM, centreM, permittivity: 1 }, 0.03) / (resistance / (2 * z0(0)))).toBeCloseTo(
      1,
      5,
    );
  });

  it('refuses a rod that touches the plane', () => {
    expect(() => rodImpedance({ diameterM: 2e-3, centreM: 1e-3, permittivity: 1 })).toThrow(/centreM/);
  });
});
