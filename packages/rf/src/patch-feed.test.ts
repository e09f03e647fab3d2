import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { insetDepth, probeFromEdge, probeInductance, probeReactance, resistanceAt } from './patch-feed.ts';

const feed = { edgeOhm: 250, lengthM: 28e-3, cutLengthM: 23e-3 };

describe('feeding a patch', () => {
  it('finds the place at which the wanted resistance stands', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 250, noNaN: true }), (wantedOhm) => {
        const fromEdge = probeFromEdge({ ...feed, wantedOhm });
        const there = resistanceAt(feed.cutLengthM / 2 - fromEdge.value, feed);
        expect(there / wantedOhm).toBeCloseTo(1, 9);
        expect(fromEdge.inRange).toBe(fromEdge.value >= 0);
      }),
      { seed: 3 },
    );
  });

  it('says when the resistance stands only beyond the metal', () => {
    const { value, inRange } = probeFromEdge({ ...feed, wantedOhm: 249 });
    expect(value).toBeLessThan(0);
    expect(inRange).toBe(false);
  });

  it('refuses more than the edge has', () => {
    expect(() => probeFromEdge({ ...feed, wantedOhm: 251 })).toThrow(/wantedOhm/);
    expect(() => insetDepth({ ...feed, wantedOhm: 251 })).toThrow(/wantedOhm/);
  });

  it('carries the contradiction about insets in its error', () => {
    const inset = insetDepth({ ...feed, wantedOhm: 50 });
    const fourth = (feed.lengthM / Math.PI) * Math.acos(0.2 ** 0.25);
    expect(inset.value - inset.error.size).toBeCloseTo(fourth, 12);
    expect(inset.error.origin).toContain('contradict');
  });

  it('has the reactance of a 1 mm pin through 3 mm of air at 5.5 GHz (61.6 ohm by hand)', () => {
    const probe = { freqHz: 5.5e9, heightM: 3e-3, radiusM: 0.5e-3, permittivity: 1 };
    expect(probeReactance(probe).value).toBeCloseTo(61.6, 1);
    expect(probeInductance(probe) * 1e9).toBeCloseTo(1.78, 2);
  });
});
