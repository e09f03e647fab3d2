import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Complex, complex } from './complex.ts';
import { patchImpedance } from './patch-resonator.ts';
import { reflection } from './reflection.ts';
import { chainLength, chainReflection, fitChain, type ResonatorChain } from './resonator-chain.ts';
import { sweepFrequencies } from './response.ts';

const CENTRE = 5.5e9;
const freqHz = sweepFrequencies(4.4e9, 6.6e9, 61);

function samples(chain: ResonatorChain, at = freqHz): Complex[] {
  const flat = chainReflection(chain, at);
  return at.map((_, k) => complex(flat[2 * k] ?? 0, flat[2 * k + 1] ?? 0));
}
const chainOf = (parameters: readonly number[]): ResonatorChain => ({ centreHz: CENTRE, referenceOhm: 50, parameters });
const data = (reflection: readonly Complex[], at = freqHz) => ({ freqHz: at, reflection, referenceOhm: 50 });

describe('chainReflection', () => {
  // Source of the expected values: the one-resonator circuit jX + R/(1 + jQ(f/f0 - f0/f)) (Balanis, ch. 14), R 80, X 30, Q 12; computed by another function.
  it('is the parallel resonance behind a reactance for one resonator', () => {
    const patch = { resonanceHz: CENTRE, quality: 12, resistanceOhm: 80, seriesOhm: 30 };
    const chain = chainOf([0, 30 / 50, 80 / 50 / 12, 0, 0, 1 / 12]);
    samples(chain).forEach((found, k) => {
      const wanted = reflection(patchImpedance(patch, freqHz[k] ?? 0), 50);
      expect(found.re).toBeCloseTo(wanted.re, 12);
      expect(found.im).toBeCloseTo(wanted.im, 12);
    });
  });

  // Two lossless resonators tuned alike and coupled by k resonate apart at u = ±k (mesh currents by hand: u² = k²).
  it('splits two coupled resonances by their coupling', () => {
    const k = 0.15;
    const chain = chainOf([0, 0, 0.2, 0, 0, 1e-6, -k * k, 0, 0, 1e-6]);
    const at = (u: number) => (CENTRE * (u + Math.sqrt(u * u + 4))) / 2;
    const open = [-k, k].map((u) => samples(chain, [at(u)])[0]);
    for (const s of open) expect(s?.re).toBeGreaterThan(0.99);
    expect(samples(chain, [CENTRE])[0]?.re).toBeCloseTo(-1, 4);
  });
});

describe('fitChain', () => {
  const resonator = fc.tuple(
    fc.double({ min: -0.12, max: 0.12, noNaN: true }),
    fc.double({ min: 0.05, max: 0.3, noNaN: true }),
  );
  const coupling = fc.tuple(
    fc.double({ min: -0.03, max: -0.004, noNaN: true }),
    fc.double({ min: -0.006, max: 0.006, noNaN: true }),
  );
  const series = fc.tuple(
    fc.double({ min: -0.1, max: 0.1, noNaN: true }),
    fc.double({ min: 0, max: 1.2, noNaN: true }),
    fc.double({ min: 0.1, max: 0.5, noNaN: true }),
    fc.double({ min: -0.05, max: 0.05, noNaN: true }),
  );
  const chains = fc
    .tuple(series, resonator, fc.array(fc.tuple(coupling, resonator), { maxLength: 2 }))
    .map(([ends, first, more]) => [...ends, ...first, ...more.flat(2)]);

  it('finds the reflection of any chain of up to three resonators again', () => {
    fc.assert(
      fc.property(chains, (parameters) => {
        const resonators = (parameters.length - 2) / 4;
        expect(parameters).toHaveLength(chainLength(resonators));
        const fit = fitChain(data(samples(chainOf(parameters))), { centreHz: CENTRE, resonators });
        expect(fit.residual).toBeLessThan(5e-3);
      }),
      { seed: 41, numRuns: 16, endOnFailure: true },
    );
  });

  it('finds the parameters again from a place nearby', () => {
    const parameters = [0, 0.6, 0.3, 0.02, -0.05, 0.12, -0.02, 0.002, 0.03, 0.1, -0.012, 0, 0.08, 0.15];
    const near = parameters.map((value) => value * 1.03 + 0.001);
    const fit = fitChain(data(samples(chainOf(parameters))), { centreHz: CENTRE, resonators: 3, near });
    expect(fit.residual).toBeLessThan(1e-3);
    fit.chain.parameters.forEach((value, i) => {
      expect(Math.abs(value - (parameters[i] ?? 0)), `parameter ${i}`).toBeLessThan(0.01);
    });
  });

  it('refuses too few frequencies', () => {
    const few = freqHz.slice(0, 9);
    const one = few.map(() => complex(0));
    expect(() => fitChain(data(one, few), { centreHz: CENTRE, resonators: 2 })).toThrow(RangeError);
  });
});
