import { complex, magnitudeOfVswr, modelReflection, type ResponseModel, sweepFrequencies } from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';
import { wilson, yieldReport } from './yield.ts';

const freqHz = sweepFrequencies(5.3e9, 5.7e9, 21);

/** One resonance whose place one dimension moves, and whose resistance another does. */
const model: ResponseModel = {
  lowHz: 5.45e9,
  highHz: 5.55e9,
  chain: { centreHz: 5.5e9, referenceOhm: 50, parameters: [0, 0, 0.05, 0, 0, 0.05] },
  freqHz,
  rest: freqHz.map(() => complex(0)),
  dimensions: [
    {
      path: 'a',
      words: 'length',
      setBy: 'cut',
      unit: 'm',
      nominal: 0.025,
      tolerance: 0.0003,
      slopes: [0, 0, 0, 0, -80, 0],
      bends: [0, 0, 0, 0, 0, 0],
    },
    {
      path: 'b',
      words: 'place',
      setBy: 'drill',
      unit: 'm',
      nominal: 0.004,
      tolerance: 0.0002,
      slopes: [0, 0, 10, 0, 0, 0],
      bends: [0, 0, 0, 0, 0, 0],
    },
  ],
  error: 0,
};

/** Standard normal distribution below x (Abramowitz and Stegun 7.1.26, error below 1.5e-7). */
function below(x: number): number {
  const t = 1 / (1 + (0.3275911 * Math.abs(x)) / Math.SQRT2);
  const tail =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) *
    Math.exp((-x * x) / 2);
  return x > 0 ? 1 - tail / 2 : tail / 2;
}

/** How far a dimension alone may be off, upward, before the limit is passed, in standard deviations: by halving, on the model itself. */
function edge(path: 'a' | 'b', deviation: number, limit: number, sign: 1 | -1): number {
  const at = (x: number) =>
    Math.max(
      ...modelReflection(model, { [path]: sign * x * deviation }, sweepFrequencies(5.45e9, 5.55e9, 17)).map(
        ({ re, im }) => Math.hypot(re, im),
      ),
    );
  let [low, high] = [0, 40];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (at(middle) <= limit) low = middle;
    else high = middle;
  }
  return low;
}

describe('yieldReport', () => {
  // With one dimension that matters the yield is the normal probability between the two edges: by the table function above.
  it('gives the probability of a normal distribution between two limits', async () => {
    const [a] = model.dimensions;
    if (a === undefined) throw new Error('the model has dimensions');
    const only = { ...model, dimensions: [a] };
    for (const vswr of [1.75, 1.85, 2]) {
      const limit = magnitudeOfVswr(vswr);
      const wanted = below(edge('a', 0.00015, limit, 1)) - below(-edge('a', 0.00015, limit, -1));
      const found = await yieldReport({ model: only, vswr, samples: 6000 });
      expect(wanted).toBeGreaterThan(0.2);
      expect(Math.abs(found.yield - wanted)).toBeLessThan(4 * Math.sqrt(0.25 / found.samples));
      expect(found.low).toBeLessThan(found.yield);
      expect(found.high).toBeGreaterThan(found.yield);
    }
  });

  it('names what dominates, and the tolerance that it needs: with it the yield is 90 %', async () => {
    const found = await yieldReport({ model, vswr: 1.8, samples: 4000 });
    expect(found.yield).toBeLessThan(0.9);
    const [first, second] = found.shares;
    expect(first?.path).toBe('a');
    expect(first?.varianceShare).toBeGreaterThanOrEqual(0);
    expect(first?.yieldIfExact).toBeGreaterThan(second?.yieldIfExact ?? 1);
    const needed = first?.toleranceFor90 ?? 0;
    expect(needed).toBeGreaterThan(0.02);
    expect(needed).toBeLessThan(0.3);
    const dimensions = model.dimensions.map((one) => (one.path === 'a' ? { ...one, tolerance: needed / 1000 } : one));
    expect((await yieldReport({ model: { ...model, dimensions }, vswr: 1.8, samples: 4000 })).yield).toBeCloseTo(
      0.9,
      1,
    );
    expect(second?.toleranceFor90).toBeUndefined();
    const all = model.dimensions.map((one) => ({ ...one, tolerance: one.tolerance * (found.allTimesFor90 ?? 0) }));
    expect((await yieldReport({ model: { ...model, dimensions: all }, vswr: 1.8, samples: 4000 })).yield).toBeCloseTo(
      0.9,
      1,
    );
  });

  it('repeats itself with its seed, and says nothing of 90 % where the design itself fails', async () => {
    const once = await yieldReport({ model, vswr: 1.8, samples: 500, seed: 9 });
    expect(await yieldReport({ model, vswr: 1.8, samples: 500, seed: 9 })).toEqual(once);
    const failing = await yieldReport({ model, vswr: 1.05, samples: 500 });
    expect(failing).toMatchObject({ yield: 0, allTimesFor90: undefined });
  });
});

// 15 of 20: by hand z² = 3.84146, (0.75 + z²/40)/(1 + z²/20) = 0.70972, half-width 0.17842; 0.531 to 0.888.
it("gives Wilson's interval", () => {
  const [low, high] = wilson(0.75, 20);
  expect(low).toBeCloseTo(0.5313, 3);
  expect(high).toBeCloseTo(0.8881, 3);
  expect(wilson(1, 50)[1]).toBeCloseTo(1, 12);
  expect(wilson(0, 50)[0]).toBeCloseTo(0, 12);
});
