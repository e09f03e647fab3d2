import { complex, type ResponseModel, sweepFrequencies } from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';
import { trimAdvice } from './advice.ts';
import type { TrimSweep } from './as-built.ts';

const CENTRE = 5.5e9;
const LENGTH = 0.022;
const freqHz = sweepFrequencies(4.8e9, 6.2e9, 141);

/** One patch: its resonance goes as the reciprocal of its length, 52 ohm, Q 12; its height moves it and its Q. */
const model: ResponseModel = {
  lowHz: 5.4e9,
  highHz: 5.6e9,
  chain: { centreHz: CENTRE, referenceOhm: 50, parameters: [0, 0, 52 / 50 / 12, 0, 0, 1 / 12] },
  freqHz,
  rest: freqHz.map(() => complex(0)),
  dimensions: [
    {
      path: 'layer[0].length',
      words: 'length of driven',
      setBy: 'cut',
      unit: 'm',
      nominal: LENGTH,
      tolerance: 0.0006,
      slopes: [0, 0, 0, 0, -2 / LENGTH, 0],
      bends: [0, 0, 0, 0, 1 / LENGTH ** 2, 0],
    },
    {
      path: 'layer[0].spacer',
      words: 'spacer under driven',
      setBy: 'spacer',
      unit: 'm',
      nominal: 0.004,
      tolerance: 0.0001,
      slopes: [0, 0, 0, 0, -2 * 42, 20],
      bends: [0, 0, 0, 0, 0, 0],
    },
    {
      path: 'layer[0].sheet',
      words: 'thickness of driven',
      setBy: 'stock',
      unit: 'm',
      nominal: 0.0005,
      tolerance: 0.00003,
      slopes: [0, 0, 0, 0, -2 * 48, 0],
      bends: [0, 0, 0, 0, 0, 0],
    },
  ],
  error: 0,
};

/**
 * What an instrument would show of a patch of this length: the resonance c/(L) by its own formula (Balanis, ch. 14), behind a
 * forgotten stretch of line of 10 ps, with ripple of 0.005. Nothing of the model is in it.
 */
function sweepOf(lengthM: number, cutM = 0): TrimSweep {
  const resonance = (CENTRE * LENGTH) / (lengthM + cutM);
  const reflection = freqHz.map((f, k) => {
    const x = 12 * (f / resonance - resonance / f);
    const [re, im] = [52 / (1 + x * x), (-52 * x) / (1 + x * x)];
    const bottom = (re + 50) ** 2 + im ** 2;
    const s = { re: (re * re - 2500 + im * im) / bottom, im: (100 * im) / bottom };
    const angle = -2 * Math.PI * f * 10e-12;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    const ripple = 0.005 * Math.sin(0.9 * k);
    return complex(s.re * cos - s.im * sin + ripple, s.re * sin + s.im * cos - ripple);
  });
  // The port of the model is at the end of a cable whose bulk was taken off: what is left is the phase of 10 ps about the middle.
  const middle = 2 * Math.PI * CENTRE * 10e-12;
  const turned = reflection.map(({ re, im }) =>
    complex(re * Math.cos(middle) - im * Math.sin(middle), re * Math.sin(middle) + im * Math.cos(middle)),
  );
  return { freqHz, reflection: turned, changes: cutM === 0 ? {} : { 'layer[0].length': cutM } };
}

describe('trimAdvice', () => {
  it('has a patch that is too long filed shorter, half of it first, and then the rest', () => {
    const off = 0.0008;
    const first = trimAdvice({ model, sweeps: [sweepOf(LENGTH + off)], wantedVswr: 1.35 });
    expect(first.verdict).toBe('trim');
    expect(first.step).toMatchObject({ half: true, option: { path: 'layer[0].length', way: 'take-off' } });
    expect(Math.abs((first.step?.option.change ?? 0) + off)).toBeLessThan(0.00015);
    expect(first.step?.change).toBeCloseTo((first.step?.option.change ?? 0) / 2, 12);
    const cut = first.step?.change ?? 0;
    const second = trimAdvice({ model, sweeps: [sweepOf(LENGTH + off), sweepOf(LENGTH + off, cut)], wantedVswr: 1.35 });
    const rest = second.verdict === 'trim' ? (second.step?.option.change ?? 0) : 0;
    expect(Math.abs(cut + rest + off)).toBeLessThan(0.0001);
    // The error of the length is told apart from that of the solver only as far as the tolerances allow; what counts is the resonance.
    const share = (off + cut + rest) / LENGTH;
    expect(Math.abs(share)).toBeLessThan(0.003);
  });

  it('says how large the new curve may be, and that it is better', () => {
    const advice = trimAdvice({ model, sweeps: [sweepOf(LENGTH + 0.0008)], wantedVswr: 1.35 });
    const { expected } = advice;
    expect(Math.max(...expected.most)).toBeLessThan(1);
    expected.freqHz.forEach((_, k) => {
      const { re, im } = expected.reflection[k] ?? { re: 0, im: 0 };
      expect(expected.least[k]).toBeLessThanOrEqual(Math.hypot(re, im));
      expect(expected.most[k]).toBeGreaterThanOrEqual(Math.hypot(re, im));
    });
    const worst = Math.max(...expected.reflection.map(({ re, im }) => Math.hypot(re, im)));
    expect((1 + worst) / (1 - worst)).toBeLessThan(advice.measuredVswr);
  });

  it('puts nothing on a patch that is too short: another spacer first, or a new part of the right size', () => {
    const off = -0.0009;
    const advice = trimAdvice({ model, sweeps: [sweepOf(LENGTH + off)], wantedVswr: 1.4 });
    expect(advice.step?.option.way).not.toBe('take-off');
    const anew = advice.options.find(({ way }) => way === 're-cut');
    expect(anew?.path).toBe('layer[0].length');
    // Nominal 22 mm: whatever the share of the solver in it, the new part must resonate in the middle of the band.
    expect(Math.abs((anew?.change ?? 0) + off)).toBeLessThan(0.0002);
    const spacer = advice.options.find(({ way }) => way === 'other-spacer');
    // 0.9 mm of length move the resonance 4.1 % up; 42 per metre of height bring it down again: about 1 mm more.
    expect(spacer?.change).toBeGreaterThan(0.0004);
  });

  it('leaves an antenna alone that meets its target', () => {
    const advice = trimAdvice({ model, sweeps: [sweepOf(LENGTH + 0.0001)], wantedVswr: 1.7 });
    expect(advice).toMatchObject({ verdict: 'done', step: undefined });
    expect(advice.measuredVswr).toBeLessThan(1.7);
  });

  it('believes a caliper more than a tolerance', () => {
    const readings = { 'layer[0].length': LENGTH + 0.0008 };
    const advice = trimAdvice({ model, sweeps: [sweepOf(LENGTH + 0.0008)], readings, wantedVswr: 1.35 });
    const length = advice.asBuilt.dimensions.find(({ path }) => path === 'layer[0].length');
    expect(length?.error).toBeCloseTo(0.0008, 4);
    expect(length?.deviation).toBeLessThan(0.00003);
    expect(advice.step?.option.size).toBeCloseTo(LENGTH, 4);
  });

  it('warns of a sweep that no antenna of this design gives', () => {
    const wrong = sweepOf(LENGTH);
    const reflection = wrong.reflection.map((_, k) => complex(0.6 * Math.cos(k / 5), 0.6 * Math.sin(k / 3)));
    const advice = trimAdvice({ model, sweeps: [{ ...wrong, reflection }], wantedVswr: 1.5 });
    expect(advice.warnings.join(' ')).toMatch(/before you cut/);
  });

  it('refuses no sweep, and one that does not cover the band: faults that the command words', () => {
    expect(() => trimAdvice({ model, sweeps: [], wantedVswr: 1.5 })).toThrow(RangeError);
    const short = { ...sweepOf(LENGTH), freqHz: freqHz.map((f) => f - 0.7e9) };
    expect(() => trimAdvice({ model, sweeps: [short], wantedVswr: 1.5 })).toThrow(/cover the band/);
  });
});
