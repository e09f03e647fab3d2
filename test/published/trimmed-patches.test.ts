/**
 * Patches that were measured at two sizes, all else alike: what a cut of the one to the other did. Nobody is known to have published a trim as
 * such; these pairs are the same thing, said by two antennas in place of one that was filed.
 *
 * - Rectangular, relative permittivity 2.33, 1.57 mm thick: 19.6 x 18.1 mm resonates at 4.805 GHz, 18.6 x 17.2 mm at 5.06 GHz (Kara, Microwave
 *   Opt. Technol. Lett. 11 (1996) 55; memory).
 * - Rectangular, 2.5, 1.524 mm, 41.4 mm long: 108 mm wide 2.181 GHz, 41 mm wide 2.228 GHz (Carver, Proc. Workshop on Printed Circuit Antenna
 *   Technology (1979) 7.1; memory).
 * - Discs, 2.65, 1.5875 mm: radius 11.5 mm 4.425 GHz, 9.6 mm 5.224 GHz, 8.2 mm 6.074 GHz (Abboud, Damiano and Papiernik, IEEE Trans. AP-38 (1990)
 *   1882; memory).
 */
import { type TrimSweep, trimAdvice } from '@sheetwave/bench';
import {
  circularPatchResonance,
  complex,
  patchResonance,
  type ResponseModel,
  reciprocal,
  scale,
  sweepFrequencies,
} from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';

const LONG = { lengthM: 19.6e-3, widthM: 18.1e-3, measuredHz: 4.805e9 };
const SHORT = { lengthM: 18.6e-3, widthM: 17.2e-3, measuredHz: 5.06e9 };
const CUT_M = LONG.lengthM - SHORT.lengthM;
/** Of a matched patch; the pairs say nothing of it, and the resonance does not hang on it. */
const QUALITY = 25;

/** Closed form of the patch between the two: its width goes along with its length. */
function estimated(lengthM: number): number {
  const share = (lengthM - SHORT.lengthM) / CUT_M;
  const widthM = SHORT.widthM + share * (LONG.widthM - SHORT.widthM);
  return patchResonance({ lengthM, widthM, heightM: 1.57e-3, sheetM: 0, permittivity: 2.33 }).value;
}

/** The antenna as it was to be: the short one, with slope and bend of the closed form along the cut. */
function modelOf(): ResponseModel {
  const tune = (lengthM: number) => 2 * Math.log(estimated(lengthM) / SHORT.measuredHz);
  const step = 0.2e-3;
  const at = [-1, 0, 1].map((k) => tune(SHORT.lengthM + k * step));
  const [low = 0, middle = 0, high = 0] = at;
  const freqHz = sweepFrequencies(4.4e9, 5.5e9, 121);
  return {
    lowHz: 0.998 * SHORT.measuredHz,
    highHz: 1.002 * SHORT.measuredHz,
    chain: { centreHz: SHORT.measuredHz, referenceOhm: 50, parameters: [0, 0, 1 / QUALITY, 0, middle, 1 / QUALITY] },
    freqHz,
    rest: freqHz.map(() => complex(0)),
    dimensions: [
      {
        path: 'layer[0].length',
        words: 'length of driven',
        setBy: 'cut',
        unit: 'm',
        nominal: SHORT.lengthM,
        tolerance: 1e-3,
        slopes: [0, 0, 0, 0, (high - low) / (2 * step), 0],
        bends: [0, 0, 0, 0, (high + low - 2 * middle) / (2 * step ** 2), 0],
      },
    ],
    error: 0,
  };
}

/** What an analyzer would show of a matched patch that resonates there. */
function sweepAt(resonanceHz: number): TrimSweep {
  const freqHz = sweepFrequencies(4.4e9, 5.5e9, 221);
  const reflection = freqHz.map((f) => {
    const { re, im } = scale(reciprocal(complex(1, QUALITY * (f / resonanceHz - resonanceHz / f))), 50);
    const bottom = (re + 50) ** 2 + im ** 2;
    return complex((re * re - 2500 + im * im) / bottom, (100 * im) / bottom);
  });
  return { freqHz, reflection, changes: {} };
}

describe('the trim of a measured patch to a measured patch', () => {
  it('is told as it was: 1 mm off the length, 255 MHz up', () => {
    const advice = trimAdvice({ model: modelOf(), sweeps: [sweepAt(LONG.measuredHz)], wantedVswr: 1.3 });
    expect(advice).toMatchObject({ verdict: 'trim', step: { option: { path: 'layer[0].length', way: 'take-off' } } });
    const cut = -(advice.step?.option.change ?? 0);
    // Measured to about 0.2 % each: 15 MHz, 0.06 mm; sizes are printed to 0.1 mm.
    expect(Math.abs(cut - CUT_M)).toBeLessThan(0.12e-3);
  });

  it('is nothing where the short one was measured', () => {
    const advice = trimAdvice({ model: modelOf(), sweeps: [sweepAt(SHORT.measuredHz)], wantedVswr: 1.3 });
    expect(advice).toMatchObject({ verdict: 'done', step: undefined });
  });
});

describe('what a cut does by the closed forms, as was measured', () => {
  const ratio = (of: (size: number) => number, before: number, after: number) => of(after) / of(before);

  it('in length and width alike', () => {
    expect(Math.abs(ratio(estimated, LONG.lengthM, SHORT.lengthM) / (5.06 / 4.805) - 1)).toBeLessThan(0.004);
  });

  it('in width alone: up, and little', () => {
    const wide = (widthM: number) =>
      patchResonance({ lengthM: 41.4e-3, widthM, heightM: 1.524e-3, sheetM: 0, permittivity: 2.5 }).value;
    const found = ratio(wide, 108e-3, 41e-3);
    expect(found).toBeGreaterThan(1);
    // Closed forms hold each resonance to about 1 %.
    expect(Math.abs(found / (2.228 / 2.181) - 1)).toBeLessThan(0.01);
  });

  it.each([
    [11.5, 9.6, 5.224 / 4.425],
    [9.6, 8.2, 6.074 / 5.224],
  ])('of a disc from %d to %d mm', (before, after, measured) => {
    const disc = (mm: number) =>
      circularPatchResonance({ radiusM: mm / 1000, heightM: 1.5875e-3, permittivity: 2.65 }).value;
    expect(Math.abs(ratio(disc, before, after) / measured - 1)).toBeLessThan(0.01);
  });
});
