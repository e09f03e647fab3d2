import {
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
import { compareResponses } from './compare.ts';

/*
 * Resonators whose curves are known: matched at f0 with quality Q, VSWR s at Q|f/f0 - f0/f| = (s - 1)/sqrt(s), so a width of f0/(Q sqrt(2)) at
 * VSWR 2 (Carver and Mink 1981; memory).
 */
function resonator(origin: Response['origin'], centreHz: number, quality: number, error?: number): Response {
  return onePortResponse({
    origin,
    method: 'Made up.',
    error: { origin: 'None.', ...(error === undefined ? {} : { frequency: error }) },
    freqHz: sweepFrequencies(4e9, 6e9, 801),
    referenceOhm: 50,
    impedance: (f) => scale(reciprocal(complex(1, quality * (f / centreHz - centreHz / f))), 50),
  });
}

const AIM = { band: { lowHz: 4.9e9, highHz: 5.1e9 }, targetVswr: 2, referenceOhm: 50, atAntenna: true };

describe('a comparison', () => {
  it('gives the shift in hertz and per cent, and judges it by the stated error', () => {
    const measured = resonator('measurement', 4.95e9, 10);
    const near = compareResponses({ ...AIM, measured, predicted: resonator('prediction', 5e9, 10, 0.02) });
    const pair = near.pairs.find(({ kind }) => kind === 'least-reflection');
    expect(pair?.differenceHz).toBeCloseTo(-50e6, -4);
    expect(pair?.differencePercent).toBeCloseTo(-1, 3);
    expect(pair?.withinError).toBe(true);
    expect(near.verdict[1]).toBe(
      'It reflects least at 4.950 GHz where 5.000 GHz was predicted: 50 MHz (1.0 %) too low, within the stated error of 100 MHz.',
    );
    const far = compareResponses({ ...AIM, measured, predicted: resonator('prediction', 5e9, 10, 0.005) });
    expect(far.pairs.every(({ withinError }) => withinError === false)).toBe(true);
    expect(far.verdict[1]).toMatch(/more than the stated error of 25 MHz: look for what/);
    const unsaid = compareResponses({ ...AIM, measured, predicted: resonator('estimate', 5e9, 10) });
    expect(unsaid.verdict[1]).toMatch(/No error was stated/);
  });

  it('gives widths at VSWR 2 and their difference', () => {
    const { measured, widthDifferenceHz } = compareResponses({
      ...AIM,
      measured: resonator('measurement', 5e9, 10),
      predicted: resonator('prediction', 5e9, 14.142),
    });
    // 5 GHz/(10 sqrt(2)) = 353.55 MHz, and 250 MHz for the other.
    expect((measured.atTwo?.widthHz ?? 0) / 1e6).toBeCloseTo(353.55, 0);
    expect((widthDifferenceHz ?? 0) / 1e6).toBeCloseTo(103.55, 0);
    expect(measured.atTwo?.percent).toBeCloseTo(7.07, 1);
  });

  it('says whether the target is met, missed, or not known', () => {
    const wide = resonator('measurement', 5e9, 10);
    expect(compareResponses({ ...AIM, measured: wide, predicted: undefined }).meetsTarget).toBe(true);
    const missed = compareResponses({ ...AIM, targetVswr: 1.2, measured: wide, predicted: undefined });
    expect(missed.meetsTarget).toBe(false);
    // At the band's edge 10 (1/0.98 - 0.98) = 0.404 = sqrt(s) - 1/sqrt(s): sqrt(s) = 1.222, s = 1.49.
    expect(missed.verdict[0]).toMatch(
      /missed: .* up to VSWR 1\.49 at 4\.900 GHz \(best 1\.00 at 5\.000 GHz\), and 1\.2 is wanted/,
    );
    const half = { ...wide, freqHz: wide.freqHz.slice(0, 380), s: wide.s.slice(0, 380) };
    const partly = compareResponses({ ...AIM, measured: half, predicted: undefined });
    expect(partly.meetsTarget).toBeUndefined();
    expect(partly.verdict[0]).toMatch(/^As far as the sweep goes \(4\.900 GHz to 4\.94\d GHz\)/);
    expect(partly.findings.map(({ code }) => code)).toContain('band-not-covered');
  });

  it('leaves out what a cable moves while one is in the sweep', () => {
    const plain = resonator('measurement', 5e9, 10);
    const behind = {
      ...plain,
      s: plain.s.map((m, i) => [
        [multiply(m[0]?.[0] ?? complex(0), polar(1, -4 * Math.PI * (plain.freqHz[i] ?? 0) * 2e-9))],
      ]),
    };
    const found = compareResponses({
      ...AIM,
      measured: behind,
      predicted: resonator('prediction', 5e9, 10),
      atAntenna: false,
    });
    expect(new Set(found.pairs.map(({ kind }) => kind))).toEqual(new Set(['least-reflection']));
    expect(found.measured.features.every(({ kind }) => kind === 'least-reflection')).toBe(true);
    const kinds = compareResponses({ ...AIM, measured: plain, predicted: resonator('prediction', 5e9, 10) }).pairs.map(
      ({ kind }) => kind,
    );
    expect(new Set(kinds)).toEqual(new Set(['least-reflection', 'resistance-peak', 'reactance-falling']));
  });

  it('converts a sweep against another reference', () => {
    const at75 = onePortResponse({
      ...resonator('measurement', 5e9, 10),
      referenceOhm: 75,
      impedance: (f) => scale(reciprocal(complex(1, 10 * (f / 5e9 - 5e9 / f))), 50),
    });
    const { measured, findings } = compareResponses({ ...AIM, measured: at75, predicted: undefined });
    expect(findings.map(({ code }) => code)).toEqual(['other-reference']);
    expect(measured.inBand?.best.vswr).toBeCloseTo(1, 3);
  });

  it('names dips that only one side has', () => {
    const { verdict } = compareResponses({
      ...AIM,
      measured: resonator('measurement', 4.3e9, 10),
      predicted: resonator('prediction', 5.5e9, 10),
    });
    expect(verdict.join('\n')).toMatch(/Not found in the sweep: the dip predicted at 5\.500 GHz/);
    expect(verdict.join('\n')).toMatch(/In the sweep only: a dip at 4\.300 GHz/);
  });
});
