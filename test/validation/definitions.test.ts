/**
 * The four definitions on a circuit whose answers follow by hand: a probe of the reactance X in series with a parallel
 * resonance, Z = jX + R/(1 + jd), d = Q (f/f0 - f0/f). The resistance has its peak at f0; the reactance is zero where
 * R d/(1 + d^2) = X; with R = 50 (1 + (X/50)^2) the match is perfect at d = X/50.
 */
import { describe, expect, it } from 'vitest';
import { chooseDefinition, readCurve } from './definitions.ts';
import type { PublishedRow } from './published-row.ts';

const F0 = 5e9;
const Q = 20;
const freqHz = Array.from({ length: 801 }, (_, n) => F0 * (0.75 + (0.55 * n) / 800));
/** d = 2Q(f/f0 - 1) to first order; exactly, f/f0 = d/(2Q) + sqrt(1 + (d/(2Q))^2). */
const at = (d: number) => F0 * (d / (2 * Q) + Math.sqrt(1 + (d / (2 * Q)) ** 2));

const curve = (resistance: number, reactance: number) => ({
  freqHz,
  z: freqHz.map((freq) => {
    const d = Q * (freq / F0 - F0 / freq);
    return { re: resistance / (1 + d * d), im: reactance - (resistance * d) / (1 + d * d) };
  }),
});

const row: PublishedRow = {
  caseId: 'X-1',
  set: 'X',
  outline: { kind: 'rectangle', lengthMm: 18, widthMm: 18 },
  layers: [{ heightMm: 1.6, permittivity: 2.3 }],
  mode: [1, 0],
  measuredHz: F0,
  confidence: '',
  memoryStrength: '',
  source: '',
};

const off = (found: number | undefined, wanted: number) => Math.abs((found ?? 0) / wanted - 1);

describe('the definitions of resonance', () => {
  it('of a probe that is matched: 25 ohm of reactance, 62.5 ohm of resistance', () => {
    const read = readCurve(curve(62.5, 25), F0);
    expect(off(read.resonances.resistance_peak, F0)).toBeLessThan(1e-4);
    // 62.5 d/(1 + d^2) = 25: d = 1/2 or 2; the falling zero is the first.
    expect(off(read.resonances.reactance_zero, at(0.5))).toBeLessThan(1e-3);
    expect(off(read.resonances.least_reflection, at(0.5))).toBeLessThan(1e-3);
    expect(read.dip?.reflection).toBeLessThan(0.01);
    expect(chooseDefinition(row, read)).toBe('least_reflection');
  });

  it('of a probe whose reactance outweighs the resistance: no zero, and the pole is taken', () => {
    const read = readCurve(curve(60, 80), F0);
    expect(read.resonances.reactance_zero).toBeUndefined();
    expect(off(read.resonances.resistance_peak, F0)).toBeLessThan(1e-4);
    expect(read.dip?.reflection).toBeGreaterThan(1 / 3);
    expect(chooseDefinition(row, read)).toBe('pole');
  });

  it('follow the source: where no matched probe was measured the pole is taken', () => {
    const read = readCurve(curve(62.5, 25), F0);
    const source = 'Chang E., Long S.A., Richards W.F., 1986';
    expect(chooseDefinition({ ...row, source }, read)).toBe('pole');
    expect(chooseDefinition({ ...row, mode: [2, 1], outline: { kind: 'disc', radiusMm: 20 } }, read)).toBe('pole');
  });
});
