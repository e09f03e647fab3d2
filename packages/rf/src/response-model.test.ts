import { describe, expect, it } from 'vitest';
import { complex } from './complex.ts';
import { patchImpedance } from './patch-resonator.ts';
import { reflection } from './reflection.ts';
import { sweepFrequencies } from './response.ts';
import { modelReflection, type ResponseModel, samplesAt } from './response-model.ts';

const centreHz = 5.5e9;
const freqHz = sweepFrequencies(5e9, 6e9, 21);
/** One resonator of Q 10 and 60 ohm without series reactance; a metre more of length lowers u by 2/L, with L = 25 mm. */
const model: ResponseModel = {
  lowHz: 5.4e9,
  highHz: 5.6e9,
  chain: { centreHz, referenceOhm: 50, parameters: [0, 0, 60 / 50 / 10, 0, 0, 0.1] },
  freqHz,
  rest: freqHz.map(() => complex(0)),
  dimensions: [
    {
      path: 'layer[0].length',
      words: 'length of driven',
      setBy: 'cut',
      unit: 'm',
      nominal: 0.025,
      tolerance: 0.0003,
      slopes: [0, 0, 0, 0, -2 / 0.025, 0],
      bends: [0, 0, 0, 0, 1 / 0.025 ** 2, 0],
    },
  ],
  error: 0,
};

describe('modelReflection', () => {
  // 2 ln(1/(1 + x)) = -2x + x² - …: the resonance must go as the reciprocal of the length, here 1 % longer; another function computes it.
  it('moves a resonance as the reciprocal of a length', () => {
    const found = modelReflection(model, { 'layer[0].length': 0.00025 }, freqHz);
    found.forEach((s, k) => {
      const patch = { resonanceHz: centreHz / 1.01, quality: 10, resistanceOhm: 60, seriesOhm: 0 };
      const wanted = reflection(patchImpedance(patch, freqHz[k] ?? 0), 50);
      expect(Math.hypot(s.re - wanted.re, s.im - wanted.im)).toBeLessThan(5e-4);
    });
  });

  it('adds what the chain left of the solution', () => {
    const rest = freqHz.map(() => complex(0.1, -0.2));
    const [plain, more] = [model, { ...model, rest }].map((one) => modelReflection(one, {}, [5.55e9])[0]);
    expect((more?.re ?? 0) - (plain?.re ?? 0)).toBeCloseTo(0.1, 12);
    expect((more?.im ?? 0) - (plain?.im ?? 0)).toBeCloseTo(-0.2, 12);
  });

  it('refuses a path that it does not know', () => {
    expect(() => modelReflection(model, { 'layer[3].length': 0.001 }, freqHz)).toThrow(RangeError);
  });
});

describe('samplesAt', () => {
  it('reads between samples, in any order, and keeps to the ends', () => {
    const values = [complex(0, 0), complex(1, 2), complex(3, 0)];
    expect(samplesAt([10, 20, 40], values, [15, 5, 30, 20, 99])).toEqual([
      { re: 0.5, im: 1 },
      { re: 0, im: 0 },
      { re: 2, im: 1 },
      { re: 1, im: 2 },
      { re: 3, im: 0 },
    ]);
    expect(() => samplesAt([], [], [1])).toThrow(RangeError);
  });
});
