import {
  add,
  type Complex,
  complex,
  magnitude,
  multiply,
  onePortResponse,
  polar,
  portReflection,
  type Response,
  reciprocal,
  scale,
  sweepFrequencies,
} from '@sheetwave/rf';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Cable, withoutCables } from './cable.ts';
import { fitCableEnd, fitDelay } from './fit-cable.ts';
import { sweepNoise } from './noise.ts';

/** A parallel resonator behind nothing; Z = R/(1 + jQ(f/f0 - f0/f)). */
const resonator = (quality = 15, ohm = 60, count = 401): Response =>
  onePortResponse({
    origin: 'measurement',
    method: 'Made up.',
    error: { origin: 'None.' },
    freqHz: sweepFrequencies(4e9, 6e9, count),
    referenceOhm: 50,
    impedance: (f) => scale(reciprocal(complex(1, quality * (f / 5e9 - 5e9 / f))), ohm),
  });

const ended = (gamma: number): Response => ({ ...resonator(), s: resonator().s.map(() => [[complex(gamma)]]) });

/** Behind a cable, by its definition: there and back, e^(-j 2 pi f 2 t) and twice the loss. */
function behind(response: Response, { delayS, lossDb, lossAtHz }: Cable): Response {
  const s = response.s.map((m, i) => {
    const f = response.freqHz[i] ?? 0;
    const back = polar(10 ** ((-2 * lossDb * Math.sqrt(f / lossAtHz)) / 20), -2 * Math.PI * f * 2 * delayS);
    return [[multiply(m[0]?.[0] ?? complex(0), back)]];
  });
  return { ...response, s };
}

/** Noise that is the same every time: normal deviates by Box and Muller (1958) from a linear congruential generator (Knuth, memory). */
function noisy(response: Response, sigma: number): Response {
  let state = 12345;
  const uniform = () => {
    state = (1664525 * state + 1013904223) % 4294967296;
    return (state + 0.5) / 4294967296;
  };
  const one = (): Complex => polar(sigma * Math.sqrt(-2 * Math.log(uniform())), 2 * Math.PI * uniform());
  return { ...response, s: response.s.map((m) => [[add(m[0]?.[0] ?? complex(0), one())]]) };
}

const farthest = (a: Response, b: Response) =>
  Math.max(
    ...portReflection(a).map((value, i) => magnitude(add(value, scale(portReflection(b)[i] ?? complex(0), -1)))),
  );

const cables = fc.record({
  delayS: fc.double({ min: 0, max: 8e-9, noNaN: true }),
  lossDb: fc.double({ min: 0, max: 2, noNaN: true }),
  lossAtHz: fc.constant(5e9),
});

describe('a test cable', () => {
  it('is taken out as it was put in', () => {
    fc.assert(
      fc.property(cables, (cable) => {
        expect(farthest(withoutCables(behind(resonator(), cable), [cable]), resonator())).toBeLessThan(1e-9);
      }),
      { seed: 1, numRuns: 20 },
    );
  });

  it('leaves the transmission of a two-port with one way of each cable', () => {
    const through: Response = {
      ...resonator(),
      freqHz: [1e9],
      s: [
        [
          [complex(0), polar(1, -Math.PI / 2)],
          [polar(1, -Math.PI / 2), complex(0)],
        ],
      ],
    };
    // 0.1 ns at 1 GHz is 36 degrees; 90 - 36 - 18 = 36.
    const out = withoutCables(through, [
      { delayS: 1e-10, lossDb: 0, lossAtHz: 1e9 },
      { delayS: 0.5e-10, lossDb: 0, lossAtHz: 1e9 },
    ]);
    const s21 = out.s[0]?.[1]?.[0] ?? complex(0);
    expect((Math.atan2(s21.im, s21.re) * 180) / Math.PI).toBeCloseTo(-36, 9);
  });

  it.each([
    ['open', 1],
    ['short', -1],
  ] as const)('is found by a sweep of its end, %s, with its loss', (end, gamma) => {
    fc.assert(
      fc.property(cables, (cable) => {
        const found = fitCableEnd(noisy(behind(ended(gamma), cable), 0.003), end);
        if (!found.ok) throw new Error(found.why);
        const { fit } = found;
        expect(Math.abs(fit.cable.delayS - cable.delayS)).toBeLessThan(fit.delayErrorS + 1e-13);
        const lossHere = cable.lossDb * Math.sqrt(fit.cable.lossAtHz / cable.lossAtHz);
        expect(Math.abs(fit.cable.lossDb - lossHere)).toBeLessThan(2 * (fit.lossErrorDb ?? 0) + 1e-3);
        expect(fit.basis).not.toMatch(/check which/);
      }),
      { seed: 2, numRuns: 20 },
    );
  });

  it('whose end was the other one is doubted', () => {
    const found = fitCableEnd(behind(ended(-1), { delayS: 1e-9, lossDb: 0, lossAtHz: 1e9 }), 'open');
    expect(found.ok && found.fit.basis).toMatch(/check which one/);
    expect(fitCableEnd(resonator(), 'open')).toMatchObject({ ok: false });
  });

  it('is found in the sweep of the antenna within the error that is stated, and that is not small', () => {
    for (const quality of [8, 15, 40]) {
      for (const delayS of [0, 0.4e-9, 2e-9, 6e-9]) {
        const found = fitDelay(noisy(behind(resonator(quality), { delayS, lossDb: 0.3, lossAtHz: 5e9 }), 0.003));
        if (!found.ok) throw new Error(found.why);
        expect(Math.abs(found.fit.cable.delayS - delayS)).toBeLessThan(found.fit.delayErrorS);
        expect(found.fit.delayErrorS).toBeGreaterThan(2e-11);
        expect(found.fit.lossErrorDb).toBeUndefined();
      }
    }
  });

  it('is not guessed from a sweep that is all resonance', () => {
    const wide = fitDelay(resonator(2));
    expect(wide.ok).toBe(false);
    expect(wide.ok ? '' : wide.why).toMatch(/sweep wider/);
  });
});

describe('noise', () => {
  it('is found whatever cable and resonance are there', () => {
    for (const sigma of [0.001, 0.01, 0.03]) {
      for (const delayS of [0, 3e-9]) {
        const found = sweepNoise(
          portReflection(noisy(behind(resonator(30), { delayS, lossDb: 0, lossAtHz: 1e9 }), sigma)),
        );
        expect((found ?? 0) / sigma).toBeGreaterThan(0.85);
        expect((found ?? 0) / sigma).toBeLessThan(1.15);
      }
    }
  });

  it('is not told from too few points', () => {
    expect(sweepNoise(portReflection(resonator(10, 50, 8)))).toBeUndefined();
  });
});
