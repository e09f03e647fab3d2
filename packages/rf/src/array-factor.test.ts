import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { latticeElements, linePower, normalisedArrayPower, steer } from './array-factor.ts';
import { wavelength } from './constants.ts';

const freqHz = 5.5e9;
const lambda = wavelength(freqHz);

describe('a line of equal elements', () => {
  it('is the sum over its elements, wherever its beam is sent', () => {
    const one = { count: 1, pitchM: lambda };
    const component = fc.double({ min: -1, max: 1, noNaN: true });
    const line = fc.record({
      count: fc.integer({ min: 1, max: 20 }),
      pitch: fc.double({ min: 0.1, max: 2, noNaN: true }),
    });
    fc.assert(
      fc.property(line, component, component, ({ count, pitch }, at, u) => {
        const run = { count, pitchM: pitch * lambda };
        const summed = normalisedArrayPower(steer(latticeElements(run, one), { u: at, v: 0 }, freqHz), freqHz);
        expect(linePower(freqHz, run, at)(u)).toBeCloseTo(summed({ u, v: 0 }), 9);
      }),
      { seed: 61, numRuns: 300 },
    );
  });

  it('is 1 at its beam and at a grating lobe one wavelength over the pitch away', () => {
    const power = linePower(freqHz, { count: 8, pitchM: 2 * lambda }, 0.1);
    for (const lobe of [0.1, 0.6, -0.4]) expect(power(lobe)).toBeCloseTo(1, 9);
  });

  it('has its first null at wavelength over its length', () => {
    // Balanis, Antenna Theory, table 6.1 (memory): cos theta = lambda/(N d).
    expect(linePower(freqHz, { count: 5, pitchM: 0.8 * lambda })(1 / 4)).toBeCloseTo(0, 12);
  });
});
