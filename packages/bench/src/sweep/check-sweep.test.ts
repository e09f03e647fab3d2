import {
  type Complex,
  complex,
  multiply,
  onePortResponse,
  polar,
  type Response,
  reciprocal,
  scale,
  sweepFrequencies,
} from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';
import { checkSweep } from './check-sweep.ts';

const EXPECTED = { band: { lowHz: 4.8e9, highHz: 5.2e9 }, referenceOhm: 50 };

function sweep(lowHz = 4e9, highHz = 6e9, count = 401): Response {
  return onePortResponse({
    origin: 'measurement',
    method: 'Made up.',
    error: { origin: 'None.' },
    freqHz: sweepFrequencies(lowHz, highHz, count),
    referenceOhm: 50,
    impedance: (f) => scale(reciprocal(complex(1, 15 * (f / 5e9 - 5e9 / f))), 50),
  });
}

const changed = (response: Response, change: (gamma: Complex, freqHz: number) => Complex): Response => ({
  ...response,
  s: response.s.map((m, i) => [[change(m[0]?.[0] ?? complex(0), response.freqHz[i] ?? 0)]]),
});

const codes = (response: Response, more = {}) =>
  checkSweep(response, { ...EXPECTED, ...more }).map(({ code, severity }) => `${severity} ${code}`);
const cable = (response: Response, delayS: number) =>
  changed(response, (gamma, f) => multiply(gamma, polar(1, -4 * Math.PI * f * delayS)));

describe('a sweep', () => {
  it('that is good says nothing', () => {
    expect(codes(sweep())).toEqual([]);
    expect(codes(cable(sweep(), 0.05e-9))).toEqual([]);
  });

  it('with more than everything reflected was not calibrated', () => {
    const wrong = changed(sweep(), (gamma) => scale(gamma, 1.06));
    expect(codes(wrong)).toEqual(['warning reflection-above-one']);
    expect(checkSweep(wrong, EXPECTED)[0]?.value).toMatch(
      /^a reflection of 1\.0\d\d at (?:4\.0|6\.0)\d\d GHz \(\d+ of 401 points/,
    );
  });

  it('beside the band is an error, over part of it a warning', () => {
    expect(codes(sweep(5.3e9, 6e9))).toContain('error band-not-swept');
    expect(codes(sweep(5e9, 6e9))).toEqual(['warning band-not-covered']);
  });

  it('with too few points says how many', () => {
    expect(codes(sweep(4e9, 6e9, 21))).toEqual(['warning few-points']);
    const sharp = onePortResponse({
      ...sweep(),
      freqHz: sweepFrequencies(4e9, 6e9, 101),
      impedance: (f) => scale(reciprocal(complex(1, 100 * (f / 5e9 - 5e9 / f))), 50),
    });
    expect(codes(sharp)).toEqual(['warning few-points']);
  });

  it('against another reference is told', () => {
    expect(codes({ ...sweep(), referenceOhm: 75 })).toContain('warning other-reference');
  });

  it('with a cable left in is told, and with too much taken out', () => {
    expect(codes(cable(sweep(), 2e-9))).toEqual(['warning cable-in-sweep']);
    expect(codes(cable(sweep(), -2e-9), { cableRemoved: true })).toEqual(['warning too-much-delay']);
    expect(codes(cable(sweep(4e9, 6e9, 101), 10e-9))).toEqual(['warning long-cable']);
  });

  it('of nothing, or of a load, is told', () => {
    expect(codes(changed(sweep(), () => complex(0.97)))).toEqual(['warning flat-line']);
    expect(
      codes(
        cable(
          changed(sweep(), () => complex(-0.97)),
          0.2e-9,
        ),
      ),
    ).toEqual(['warning flat-line']);
    expect(codes(changed(sweep(), () => complex(0.01)))).toEqual(['warning flat-match']);
  });

  it('with much noise is told', () => {
    // An uneven row of signs, as noise has it.
    const noisy = changed(sweep(), (gamma, f) =>
      complex(gamma.re + 0.12 * Math.sin(f / 1e6), gamma.im + 0.12 * Math.cos(f / 7e5)),
    );
    expect(codes(noisy)).toContain('warning noisy-sweep');
  });
});
