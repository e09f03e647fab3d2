/**
 * Metal loss of microstrip against the closed form of Gupta, Garg, Bahl & Bhartia, Microstrip Lines and Slotlines (after
 * R. A. Pucel et al., IEEE Trans. MTT-16 (1968) 342-350), and against a value in Pozar, Microwave Engineering, example
 * 3.7 (both `memory`): alumina, 0.5 mm, 50 ohm, 10 GHz, copper: a full calculation quoted there 0.054 dB/cm, the simple rule
 * Rs/(Z0 W) 0.094 dB/cm. The references differ by 1.7; the rule of incremental inductance sides with the lower.
 */
import { decibelsPerMetre, stripConductorAttenuation, stripLine, surfaceResistance } from '@sheetwave/rf';
import { expect, it } from 'vitest';

interface Section {
  readonly widthM: number;
  readonly heightM: number;
  readonly thicknessM: number;
  readonly permittivity: number;
}

/** dB/m, for a width above the height. */
function handbook({ widthM, heightM, thicknessM, permittivity }: Section, surfaceOhm: number): number {
  const { z0Ohm, effectivePermittivity } = stripLine({ widthM, heightM, thicknessM, permittivity }, 0);
  const logarithm = Math.log((2 * heightM) / thicknessM);
  const u = widthM / heightM + ((1.25 * thicknessM) / (Math.PI * heightM)) * (1 + logarithm);
  const a = 1 + (1 / u) * (1 + (1.25 / Math.PI) * logarithm);
  return ((6.1e-5 * a * surfaceOhm * z0Ohm * effectivePermittivity) / heightM) * (u + (0.667 * u) / (u + 1.444));
}

const found = (section: Section, surfaceOhm: number): number =>
  decibelsPerMetre(stripConductorAttenuation(section, { z0Ohm: stripLine(section, 0).z0Ohm, surfaceOhm }));

it.each([
  [3, 1.6, 35, 4.3],
  [2.4, 0.787, 17, 2.2],
  [6, 1.6, 35, 4.3],
  [10, 2, 500, 1],
])('%d mm on %d mm, %d um thick, permittivity %d', (width, height, thickness, permittivity) => {
  const section = { widthM: width * 1e-3, heightM: height * 1e-3, thicknessM: thickness * 1e-6, permittivity };
  const surfaceOhm = surfaceResistance(5.5e9, 58e6);
  expect(Math.abs(found(section, surfaceOhm) / handbook(section, surfaceOhm) - 1)).toBeLessThan(0.15);
});

it('sides with the full calculation in the worked example', () => {
  const section = { widthM: 0.483e-3, heightM: 0.5e-3, thicknessM: 17e-6, permittivity: 9.9 };
  const perCentimetre = found(section, surfaceResistance(10e9, 5.813e7)) / 100;
  expect(Math.abs(perCentimetre / 0.054 - 1)).toBeLessThan(0.15);
});
