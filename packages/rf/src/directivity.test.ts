import { describe, expect, it } from 'vitest';
import { latticeElements, normalisedArrayPower, steer } from './array-factor.ts';
import { beamwidths } from './beamwidth.ts';
import { complex } from './complex.ts';
import { wavelength } from './constants.ts';
import { directivityOf, patchArrayDirectivity, patchDirectivity, radiatedPower } from './directivity.ts';

const freqHz = 5.5e9;
const lambda = wavelength(freqHz);
const patch = { widthM: 0.45 * lambda, lengthM: 0.5 * lambda };
const one = { count: 1, pitchM: lambda };
const run = (count: number, pitch: number) => ({ count, pitchM: pitch * lambda });

describe('directivity', () => {
  it('integrates a constant to 2 pi and a cosine squared to 2 pi/3', () => {
    expect(radiatedPower(() => 1, 1)).toBeCloseTo(2 * Math.PI, 10);
    expect(radiatedPower(({ u, v }) => 1 - u * u - v * v, 1)).toBeCloseTo((2 * Math.PI) / 3, 10);
  });

  it('of one element in a lattice is that of the patch', () => {
    const lattice = patchArrayDirectivity({ patch, freqHz, alongLength: one, alongWidth: one });
    expect(lattice.value).toBeCloseTo(patchDirectivity(patch, freqHz).value, 8);
  });

  it('does not change when the whole array moves or its weights are scaled', () => {
    const array = { patch, freqHz, alongLength: run(2, 0.7), alongWidth: run(2, 0.8) };
    const elements = latticeElements(array.alongLength, array.alongWidth).map((e) => ({
      ...e,
      xM: e.xM + 0.02,
      weight: complex(0, 3),
    }));
    const moved = directivityOf(array, { elements, towards: { u: 0, v: 0 } });
    expect(moved.value).toBeCloseTo(patchArrayDirectivity(array).value, 8);
  });

  it('falls when scanned, with the beam where it was sent', () => {
    const array = { patch, freqHz, alongLength: run(4, 0.6), alongWidth: one };
    const at = { u: Math.sin(0.4), v: 0 };
    expect(patchArrayDirectivity(array, at).value).toBeLessThan(patchArrayDirectivity(array).value);
    const power = normalisedArrayPower(steer(latticeElements(array.alongLength, one), at, freqHz), freqHz);
    expect(power(at)).toBeCloseTo(1, 12);
    expect(power({ u: 0, v: 0 })).toBeLessThan(0.5);
  });

  it('says when the pitch calls up grating lobes', () => {
    const { inRange, reasons } = patchArrayDirectivity({ patch, freqHz, alongLength: run(2, 1.2), alongWidth: one });
    expect(inRange).toBe(false);
    expect(reasons[0]).toContain('pitch');
  });

  it('refuses a count of 0 and half an element', () => {
    for (const count of [0, 1.5]) {
      expect(() => patchArrayDirectivity({ patch, freqHz, alongLength: run(count, 0.7), alongWidth: one })).toThrow(
        /count/,
      );
    }
  });
});

describe('beamwidths', () => {
  it('of a cosine field is 90 degrees', () => {
    // A very small patch has cos^2 across its field and no fall along it.
    const dot = { widthM: 1e-6, lengthM: 1e-6 };
    const { alongLength, alongWidth } = beamwidths({ patch: dot, freqHz, alongLength: one, alongWidth: one });
    expect(alongWidth.value).toBeCloseTo(Math.PI / 2, 6);
    expect(alongLength.inRange).toBe(false);
    expect(alongLength.value).toBeCloseTo(Math.PI, 12);
  });

  it('narrow along the longer side of an array', () => {
    const { alongLength, alongWidth } = beamwidths({
      patch,
      freqHz,
      alongLength: run(4, 0.7),
      alongWidth: run(2, 0.7),
    });
    expect(alongLength.value).toBeLessThan(alongWidth.value);
  });
});
