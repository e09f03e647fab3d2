import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, complex, multiply, polar, reciprocal, scale } from './complex.ts';
import { onePortResponse, type Response, sweepFrequencies } from './response.ts';
import { portFeatures, vswrBands, vswrInBand } from './response-features.ts';

/**
 * A parallel resonator, whose curve is known in closed form: Z = R / (1 + jQ(f/f0 - f0/f)). Pozar, Microwave Engineering, sec. 6.1
 * (memory); what follows from it is worked out in the tests.
 */
interface Resonator {
  readonly ohm: number;
  readonly quality: number;
  readonly centreHz: number;
  readonly count: number;
  readonly seriesOhm?: number;
}

const detuning = (f: number, f0: number) => f / f0 - f0 / f;

function resonator({ ohm, quality, centreHz, count, seriesOhm = 0 }: Resonator): Response {
  return onePortResponse({
    origin: 'estimate',
    method: 'A resonator.',
    error: { origin: 'None.' },
    freqHz: sweepFrequencies(centreHz * 0.8, centreHz * 1.2, count),
    referenceOhm: 50,
    impedance: (f) => add(complex(0, seriesOhm), scale(reciprocal(complex(1, quality * detuning(f, centreHz))), ohm)),
  });
}

/** Detuning x = f/f0 - f0/f solved for f: f0 (x/2 + sqrt(1 + x^2/4)). */
const freqAt = (x: number, f0: number) => f0 * (x / 2 + Math.sqrt(1 + (x * x) / 4));

describe('features of a parallel resonator', () => {
  const matched = resonator({ ohm: 50, quality: 20, centreHz: 5e9, count: 181 });

  it('peaks, passes zero falling and reflects least at one frequency', () => {
    const { resistancePeaks, reactanceZeros, leastReflections } = portFeatures(matched);
    expect(resistancePeaks).toHaveLength(1);
    expect(resistancePeaks[0]?.freqHz).toBeCloseTo(5e9, -5);
    expect(resistancePeaks[0]?.resistanceOhm).toBeCloseTo(50, 2);
    expect(reactanceZeros).toHaveLength(1);
    expect(reactanceZeros[0]?.freqHz).toBeCloseTo(5e9, -5);
    expect(reactanceZeros[0]?.resistanceOhm).toBeCloseTo(50, 1);
    expect(reactanceZeros[0]?.slope).toBe('falling');
    expect(leastReflections).toHaveLength(1);
    expect(leastReflections[0]?.freqHz).toBeCloseTo(5e9, -5);
  });

  it('has the bandwidth (s - 1)/(Q sqrt(s)) at VSWR s when matched', () => {
    // Carver and Mink, IEEE Trans. Antennas Propag. 29 (1981) 2 (memory); exact here in detuning: Q x = (s - 1)/sqrt(s).
    for (const limit of [1.5, 2, 3]) {
      const x = (limit - 1) / Math.sqrt(limit) / 20;
      const [band, ...more] = vswrBands(matched, limit);
      expect(more).toEqual([]);
      expect(band?.lowSeen && band.highSeen).toBe(true);
      expect(((band?.lowHz ?? 0) / freqAt(-x, 5e9) - 1) * 1e4).toBeCloseTo(0, 0);
      expect(((band?.highHz ?? 0) / freqAt(x, 5e9) - 1) * 1e4).toBeCloseTo(0, 0);
    }
  });

  it('tells the definitions apart when the probe adds a reactance', () => {
    // X = 0 where R q/(1 + q^2) = X_s with q = Q x: for R = 100, X_s = 40, q = 1.25 +- sqrt(1.5625 - 1), so q = 0.5 and q = 2.
    const shifted = resonator({ ohm: 100, quality: 20, centreHz: 5e9, count: 2001, seriesOhm: 40 });
    const { resistancePeaks, reactanceZeros } = portFeatures(shifted);
    expect(resistancePeaks[0]?.freqHz).toBeCloseTo(5e9, -4);
    expect(reactanceZeros.map(({ slope }) => slope)).toEqual(['falling', 'rising']);
    expect(reactanceZeros[0]?.freqHz).toBeCloseTo(freqAt(0.5 / 20, 5e9), -5);
    expect(reactanceZeros[1]?.freqHz).toBeCloseTo(freqAt(2 / 20, 5e9), -5);
    // R/(1 + q^2)
    expect(reactanceZeros.map(({ resistanceOhm }) => Math.round(resistanceOhm))).toEqual([80, 20]);
  });

  it('finds a dip between two samples', () => {
    const coarse = resonator({ ohm: 50, quality: 40, centreHz: 5e9, count: 22 });
    expect(coarse.s.every((m) => Math.hypot(m[0]?.[0]?.re ?? 1, m[0]?.[0]?.im ?? 1) > 1 / 3)).toBe(true);
    expect(vswrBands(coarse, 2)).toHaveLength(1);
    expect(portFeatures(coarse).leastReflections[0]?.freqHz).toBeCloseTo(5e9, -8);
  });
});

describe('bands', () => {
  it('are open where the sweep ends', () => {
    const load = onePortResponse({
      origin: 'measurement',
      method: 'A 75 ohm resistor.',
      error: { origin: 'None.' },
      freqHz: [1e9, 2e9, 3e9],
      referenceOhm: 50,
      impedance: () => complex(75),
    });
    expect(vswrBands(load, 2)).toEqual([{ lowHz: 1e9, highHz: 3e9, lowSeen: false, highSeen: false }]);
    expect(vswrBands(load, 1.4)).toEqual([]);
    const inBand = vswrInBand(load, { lowHz: 2.5e9, highHz: 4e9 });
    expect(inBand).toMatchObject({ lowHz: 2.5e9, highHz: 3e9, whole: false });
    expect(inBand?.worst.vswr).toBeCloseTo(1.5, 12);
    expect(vswrInBand(load, { lowHz: 4e9, highHz: 5e9 })).toBeUndefined();
  });

  it('do not move with a cable in front', () => {
    const plain = resonator({ ohm: 70, quality: 15, centreHz: 2.4e9, count: 101 });
    fc.assert(
      fc.property(fc.double({ min: 0, max: 2e-9, noNaN: true }), (delayS) => {
        const turned: Response = {
          ...plain,
          s: plain.s.map((m, i) => [
            [multiply(m[0]?.[0] ?? complex(0), polar(1, -4 * Math.PI * (plain.freqHz[i] ?? 0) * delayS))],
          ]),
        };
        const [a] = vswrBands(plain, 2);
        const [b] = vswrBands(turned, 2);
        expect((b?.lowHz ?? 0) / (a?.lowHz ?? 1)).toBeCloseTo(1, 9);
        expect((b?.highHz ?? 0) / (a?.highHz ?? 1)).toBeCloseTo(1, 9);
      }),
      { seed: 5, numRuns: 30 },
    );
  });

  it('leave out dips that noise makes, when asked', () => {
    const plain = resonator({ ohm: 50, quality: 20, centreHz: 5e9, count: 201 });
    const noisy: Response = {
      ...plain,
      s: plain.s.map((m, i) => [[add(m[0]?.[0] ?? complex(0), complex(0.004 * Math.sin(i * 2.4)))]]),
    };
    expect(portFeatures(noisy).leastReflections.length).toBeGreaterThan(5);
    expect(portFeatures(noisy, { leastDip: 0.05 }).leastReflections).toHaveLength(1);
  });

  it('refuse a limit that is no VSWR and a port that is not there', () => {
    const plain = resonator({ ohm: 50, quality: 20, centreHz: 5e9, count: 5 });
    expect(() => vswrBands(plain, 1)).toThrow(/limit/);
    expect(() => portFeatures(plain, { port: 1 })).toThrow(/port 1/);
  });

  it('call a reflection above 1 an infinite VSWR', () => {
    const plain = resonator({ ohm: 50, quality: 20, centreHz: 5e9, count: 5 });
    const wrong: Response = { ...plain, s: plain.s.map(() => [[complex(1.02)]]) };
    expect(vswrInBand(wrong, { lowHz: 4.5e9, highHz: 5e9 })?.worst.vswr).toBe(Number.POSITIVE_INFINITY);
  });
});
