import type { Response } from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';
import { gainCurves, gainWithin } from './gain-curve.ts';
import type { FarFieldFigures } from './prediction.ts';

/** Far fields whose gain rises by 1 dB for 0.1 GHz; only what a gain curve reads is filled in. */
const farField = (ghz: number, port = 0): FarFieldFigures => ({
  freqHz: ghz * 1e9,
  port,
  directivityDbi: 10 * ghz - 40,
  gainDbi: 10 * ghz - 42,
  realisedGainDbi: 10 * ghz - 45,
  gainAheadDbi: 10 * ghz - 43,
  beam: { rightDeg: 0, upDeg: 0 },
  beamwidthVerticalDeg: 60,
  beamwidthHorizontalDeg: 60,
  frontToBackDb: 20,
  sideLobeDb: undefined,
  crossPolarisationDb: 30,
  efficiency: 0.9,
  balance: { radiated: 0.9, metal: 0.05, rest: 0.05 },
});

const sweep = (ghz: readonly number[], s: readonly (readonly number[])[]): Response => ({
  origin: 'prediction',
  method: 'invented',
  error: { origin: 'invented' },
  freqHz: ghz.map((one) => one * 1e9),
  referenceOhm: 50,
  s: ghz.map(() => s.map((row) => row.map((re) => ({ re, im: 0 })))),
});

describe('the gain over the sweep', () => {
  const figures = [5, 5.2, 5.6].map((ghz) => farField(ghz));
  const [curve] = gainCurves(sweep([4.8, 5, 5.1, 5.3, 5.6, 5.9], [[0.5]]), figures);

  it('reaches from the first far field to the last, with both kinds of points', () => {
    expect(curve?.freqHz).toEqual([5e9, 5.1e9, 5.2e9, 5.3e9, 5.6e9]);
    expect(curve?.solvedHz).toEqual([5e9, 5.2e9, 5.6e9]);
  });
  it('takes the mismatch from the sweep: |S11| 0.5 leaves 0.75 of the power, 1.249 dB less', () => {
    expect(curve?.gainDbi[1]).toBeCloseTo(9, 9);
    expect(curve?.gainAheadDbi[3]).toBeCloseTo(10, 9);
    expect(curve?.realisedGainDbi[1]).toBeCloseTo(9 + 10 * Math.log10(0.75), 9);
    // Where a far field was worked out, what it found stands.
    expect(curve?.realisedGainDbi[2]).toBeCloseTo(7, 9);
  });
  it('counts what goes out at other ports as lost: 1 - 0.25 - 0.09', () => {
    const two = [...figures, ...[5, 5.2, 5.6].map((ghz) => farField(ghz, 1))];
    const curves = gainCurves(
      sweep(
        [5.1],
        [
          [0.5, 0.3],
          [0.3, 0.1],
        ],
      ),
      two,
    );
    expect(curves.map(({ port }) => port)).toEqual([0, 1]);
    expect(curves[0]?.realisedGainDbi[1]).toBeCloseTo(9 + 10 * Math.log10(0.66), 9);
    expect(curves[1]?.realisedGainDbi[1]).toBeCloseTo(9 + 10 * Math.log10(0.9), 9);
  });
  it('finds the lowest and the highest within a band, edges included', () => {
    const found = curve && gainWithin(curve, { lowHz: 5.1e9, highHz: 5.6e9 }, 'gainDbi');
    expect(found?.lowest.freqHz).toBe(5.1e9);
    expect(found?.highest.freqHz).toBe(5.6e9);
    expect(curve && gainWithin(curve, { lowHz: 6e9, highHz: 7e9 }, 'gainDbi')).toBeUndefined();
  });
  it('is empty without far fields', () => {
    expect(gainCurves(sweep([5.1], [[0.5]]), [])).toEqual([]);
  });
});
