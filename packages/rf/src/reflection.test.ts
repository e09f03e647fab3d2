import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { complex, magnitude } from './complex.ts';
import { quarterWaveBandwidth, quarterWaveImpedance, teeBranches } from './quarter-wave.ts';
import { impedanceOf, magnitudeOfVswr, mismatchLoss, reflection, returnLoss, vswr } from './reflection.ts';

describe('reflection', () => {
  it('goes to the impedance and back', () => {
    const ohms = fc.double({ min: 0.5, max: 500, noNaN: true });
    fc.assert(
      fc.property(ohms, fc.double({ min: -500, max: 500, noNaN: true }), (re, im) => {
        const back = impedanceOf(reflection(complex(re, im), 50), 50);
        expect(back.re).toBeCloseTo(re, 6);
        expect(back.im).toBeCloseTo(im, 6);
        expect(magnitude(reflection(complex(re, im), 50))).toBeLessThan(1);
      }),
      { seed: 19 },
    );
  });

  it('has its ends: match and short', () => {
    expect([vswr(0), returnLoss(0), mismatchLoss(0)]).toEqual([1, Number.POSITIVE_INFINITY, 0]);
    expect([vswr(1), returnLoss(1), mismatchLoss(1)]).toEqual([Number.POSITIVE_INFINITY, 0, Number.POSITIVE_INFINITY]);
    expect(magnitudeOfVswr(Number.POSITIVE_INFINITY)).toBe(1);
  });

  it('refuses a magnitude above 1 and a VSWR below 1', () => {
    expect(() => vswr(1.01)).toThrow(/magnitude/);
    expect(() => magnitudeOfVswr(0.9)).toThrow(/ratio/);
  });
});

describe('quarter-wave sections and junctions', () => {
  it('match two 50 ohm branches to 50 ohm through 70.71 or 35.36 ohm', () => {
    expect(quarterWaveImpedance(50, 100)).toBeCloseTo(70.71, 2);
    expect(quarterWaveImpedance(50, 25)).toBeCloseTo(35.36, 2);
  });

  it('keep the reflection everywhere when the step itself is small enough', () => {
    expect(quarterWaveBandwidth({ fromOhm: 50, toOhm: 55, reflection: 0.1 })).toBe(2);
    expect(quarterWaveBandwidth({ fromOhm: 50, toOhm: 50, reflection: 0.1 })).toBe(2);
  });

  it('have a narrower band for a larger step', () => {
    const band = (toOhm: number) => quarterWaveBandwidth({ fromOhm: 50, toOhm, reflection: 0.1 });
    expect(band(200)).toBeLessThan(band(100));
  });

  it('share power as the inverse of impedance', () => {
    const branches = teeBranches(50, [1, 2]);
    expect(branches).toEqual([150, 75]);
  });
});
