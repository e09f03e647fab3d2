/**
 * Wires in free space. Sources: C. A. Balanis, Antenna Theory, 4th ed., sections 4.2, 4.6 and 8.5: half-wave dipole with a
 * sinusoidal current 73.1 + j42.5 ohm and 2.151 dBi (exact for no thickness), short dipole 1.761 dBi (exact), monopole
 * over an endless plane half the impedance and twice the directivity; real dipole of length/diameter 50: 85.8 + j54.9 ohm
 * (moment method, `confirmed` at second hand).
 */
import { type Solution, SPEED_OF_LIGHT } from '@sheetwave/field';
import { describe, expect, it } from 'vitest';
import { off, sceneOf, solveFast } from './solve-fast.ts';

const FREQ = 1e9;
const WAVE = SPEED_OF_LIGHT / FREQ;
const OPTIONS = { band: { low: 0.75e9, high: 1.25e9 }, freqHz: [FREQ], farFieldHz: [FREQ], stepDegrees: 5 };

const dipole = (length: number, radius: number, gap = WAVE / 60) =>
  sceneOf({
    wires: [
      { name: 'upper', from: [0, 0, gap / 2], to: [0, 0, length / 2], radius },
      { name: 'lower', from: [0, 0, -length / 2], to: [0, 0, -gap / 2], radius },
    ],
    ports: [{ name: 'feed', from: [0, 0, -gap / 2], to: [0, 0, gap / 2], resistance: 73, radius }],
  });

const at = ({ z, farFields }: Solution) => ({
  ohm: z[0]?.[0] ?? { re: Number.NaN, im: Number.NaN },
  dbi: farFields[0]?.pattern.directivityDbi ?? Number.NaN,
  radiated: farFields[0]?.balance.radiated ?? Number.NaN,
});

describe('a half-wave dipole', () => {
  it('of length/diameter 50: impedance, directivity, power', async () => {
    const { ohm, dbi, radiated } = at(await solveFast(dipole(WAVE / 2, WAVE / 200), OPTIONS));
    expect(Math.abs(ohm.re - 85.8)).toBeLessThan(8);
    // 17 ohm are 1.5 % of its length.
    expect(Math.abs(ohm.im - 54.9)).toBeLessThan(17);
    expect(Math.abs(dbi - 2.15)).toBeLessThan(0.08);
    expect(off(radiated, 1)).toBeLessThan(0.01);
  });

  it('is the same with and without its planes of symmetry', async () => {
    const scene = dipole(WAVE / 2, WAVE / 200);
    const halved = await solveFast(scene, { ...OPTIONS, quality: 'draft' });
    const whole = await solveFast(scene, { ...OPTIONS, quality: 'draft', symmetry: false });
    expect(Object.values(halved.symmetry).map(({ kind }) => kind)).toEqual(['magnetic', 'magnetic', 'metal']);
    expect(whole.grid.cells).toBeGreaterThan(3 * halved.grid.cells);
    expect(off(at(halved).ohm.re, at(whole).ohm.re)).toBeLessThan(1e-3);
    expect(Math.abs(at(halved).ohm.im - at(whole).ohm.im)).toBeLessThan(0.1);
    expect(Math.abs(at(halved).dbi - at(whole).dbi)).toBeLessThan(1e-3);
  });
});

it('a short dipole has 1.761 dBi', async () => {
  const short = dipole(WAVE / 20, WAVE / 4000, WAVE / 60);
  const { dbi, radiated } = at(await solveFast(short, { ...OPTIONS, quality: 'draft', stopDb: -40 }));
  expect(Math.abs(dbi - 1.761)).toBeLessThan(0.02);
  expect(off(radiated, 1)).toBeLessThan(0.02);
});

it('a monopole over a plane: half a dipole, twice the directivity', async () => {
  const radius = WAVE / 200;
  const gap = WAVE / 120;
  const monopole = sceneOf({
    wires: [{ name: 'rod', from: [0, 0, gap], to: [0, 0, WAVE / 4], radius }],
    ports: [{ name: 'feed', from: [0, 0, 0], to: [0, 0, gap], resistance: 36, radius }],
    walls: { zLow: { kind: 'metal', at: 0 } },
  });
  const { ohm, dbi } = at(await solveFast(monopole, OPTIONS));
  expect(Math.abs(ohm.re - 85.8 / 2)).toBeLessThan(4);
  expect(Math.abs(ohm.im - 54.9 / 2)).toBeLessThan(9);
  expect(Math.abs(dbi - 5.16)).toBeLessThan(0.08);
});

it('a poor conductor loses what the sine of current says', async () => {
  const radius = WAVE / 200;
  const scene = dipole(WAVE / 2, radius);
  const conductivity = 1e4;
  const wires = scene.wires.map((wire) => ({ ...wire, conductivity }));
  const solution = await solveFast({ ...scene, wires }, { ...OPTIONS, quality: 'draft' });
  // Half the resistance of the wire at high frequency (Balanis, example 2.13): Rs/(2 pi a) l/2 on about 86 ohm.
  const surface = Math.sqrt((Math.PI * FREQ * 4e-7 * Math.PI) / conductivity);
  const expected = ((surface / (2 * Math.PI * radius)) * WAVE) / 4 / at(solution).ohm.re;
  expect(off(solution.farFields[0]?.balance.metal ?? Number.NaN, expected)).toBeLessThan(0.12);
  expect(solution.farFields[0]?.efficiency).toBeCloseTo(1 / (1 + expected), 1);
});
