/**
 * Directivity of arrays and patches. Isotropic line: exact closed form (Balanis, Antenna Theory, ch. 6; `computed`).
 * Patch and patch arrays over an endless plane: two slots by quadrature (Balanis eq. 14-55) and pattern multiplication in
 * independent scripts (`computed`). Beamwidth, first null and sidelobe of a uniform line: handbook (`memory`).
 */
import {
  apertureDirectivity,
  arrayFactor,
  beamwidths,
  firstNull,
  gratingLobePitch,
  isotropicLineDirectivity,
  latticeElements,
  magnitude,
  patchArrayDirectivity,
  patchDirectivity,
  toDecibels,
  wavelength,
} from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';

const freqHz = 5.5e9;
const lambda = wavelength(freqHz);

describe('a line of isotropic elements', () => {
  it.each([
    [2, 0.5, 2],
    [4, 0.5, 4],
    [4, 0.7, 5.2305],
    [4, 0.8, 5.9066],
    [8, 0.8, 12.1716],
  ])('%i at %d wavelengths', (count, pitch, directivity) => {
    expect(isotropicLineDirectivity(freqHz, { count, pitchM: pitch * lambda })).toBeCloseTo(directivity, 3);
  });
});

describe('one patch', () => {
  it.each([
    [0.5, 0.5, 9.343],
    [0.6, 0.5, 9.681],
    [0.75, 0.5, 10.248],
    [0.5, 0.45, 8.761],
    [0.3, 0.3, 6.557],
    [1e-4, 0.5, 8.498],
    [1e-4, 1e-4, 4.771],
  ])('width %d, length %d wavelengths', (width, length, directivity) => {
    const found = patchDirectivity({ widthM: width * lambda, lengthM: length * lambda }, freqHz);
    expect(Math.abs(found.value - directivity)).toBeLessThan(0.001);
  });

  it.each([
    [55, 52, 2.45, 8.31],
    [25, 23, 5.5, 8.3],
    [37.6, 29, 2.45, 6],
  ])('%d x %d mm at %d GHz', (width, length, gigahertz, directivity) => {
    const found = patchDirectivity({ widthM: width * 1e-3, lengthM: length * 1e-3 }, gigahertz * 1e9);
    expect(Math.abs(found.value - directivity)).toBeLessThan(0.01);
  });
});

const square = (count: number, pitch: number, [width, length]: readonly [number, number]) => ({
  patch: { widthM: width * lambda, lengthM: length * lambda },
  freqHz,
  alongLength: { count, pitchM: pitch * lambda },
  alongWidth: { count, pitchM: pitch * lambda },
});

describe('square arrays of patches', () => {
  it.each([
    [0.5, 0.55, 13.261],
    [0.5, 0.6, 13.794],
    [0.5, 0.7, 14.725],
    [0.5, 0.9, 15.762],
    [0.5, 1, 15.88],
    [0.45, 0.55, 12.991],
    [0.45, 0.7, 14.475],
    [0.45, 0.8, 15.029],
    [0.45, 0.9, 15.244],
    [0.34, 0.55, 12.464],
    [0.34, 0.85, 13.899],
    [0.34, 1, 13.487],
  ])('2 x 2 patches of %d wavelengths at %d', (size, pitch, directivity) => {
    expect(patchArrayDirectivity(square(2, pitch, [size, size])).value).toBeCloseTo(directivity, 2);
  });

  it.each([
    [1, 0.7, 8.54],
    [2, 0.7, 14.45],
    [2, 0.8, 14.99],
    [4, 0.7, 20.15],
    [4, 0.8, 21.12],
    [4, 0.9, 21.67],
  ])('%i x the same, 0.45 by 0.444 wavelengths, at %d', (count, pitch, directivity) => {
    const found = patchArrayDirectivity(square(count, pitch, [0.45, 0.444])).value;
    expect(Math.abs(found - directivity)).toBeLessThan(0.02);
  });
});

describe('apertures and lines by the handbook', () => {
  it('bounds a lit aperture by 4 pi A / lambda^2', () => {
    expect(toDecibels(apertureDirectivity(lambda * lambda, freqHz))).toBeCloseTo(10.992, 3);
    expect(toDecibels(apertureDirectivity(0.04, 2.45e9))).toBeCloseTo(15.26, 3);
    expect(toDecibels(apertureDirectivity(0.04, 5.5e9))).toBeCloseTo(22.284, 3);
    expect(toDecibels(apertureDirectivity(6 * lambda * lambda, freqHz))).toBeCloseTo(18.77, 2);
  });

  it('has the uniform beamwidth 50.8 deg lambda/(N d) and the first null at asin(lambda/(N d))', () => {
    const patch = { widthM: 0.01 * lambda, lengthM: 0.01 * lambda };
    const run = { count: 16, pitchM: lambda / 2 };
    const { alongLength } = beamwidths({ patch, freqHz, alongLength: run, alongWidth: { count: 1, pitchM: lambda } });
    expect(((alongLength.value * 180) / Math.PI) * 8).toBeCloseTo(50.8, 0);
    expect(firstNull(freqHz, run)).toBeCloseTo(Math.asin(1 / 8), 9);
  });

  it('has a first sidelobe of -13.26 dB when long', () => {
    const factor = arrayFactor(
      latticeElements({ count: 200, pitchM: lambda / 2 }, { count: 1, pitchM: lambda }),
      freqHz,
    );
    const lobe = Math.max(
      ...Array.from({ length: 400 }, (_, i) => magnitude(factor({ u: 0.01 + i * 0.00003, v: 0 })) / 200),
    );
    expect(20 * Math.log10(lobe)).toBeCloseTo(-13.26, 1);
  });

  it('keeps grating lobes out below one wavelength, half of one for a scan to the horizon', () => {
    expect(gratingLobePitch(freqHz)).toBeCloseTo(lambda, 12);
    expect(gratingLobePitch(freqHz, Math.PI / 2)).toBeCloseTo(lambda / 2, 12);
  });
});
