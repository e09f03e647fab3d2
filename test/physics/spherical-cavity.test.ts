/**
 * A ball-shaped hollow in metal, built of slices with round holes: curved walls across all axes. Its lowest mode, TM011, is exact:
 * the first root of (x j1(x))' = 0, 2.743707 (`computed`; R. F. Harrington, Time-Harmonic Electromagnetic Fields, section 6.2,
 * prints 2.744), f = x c/(2 pi R).
 */
import { type Sheet, SPEED_OF_LIGHT } from '@sheetwave/field';
import { expect, it } from 'vitest';
import { mm, off, sceneOf, solveFast } from './solve-fast.ts';

const RADIUS = 30 * mm;
const EXACT = (2.743707 * SPEED_OF_LIGHT) / (2 * Math.PI * RADIUS);

/** The upper half: the field of this mode stands upright on the plane through the middle. */
function slices(count: number): Sheet[] {
  const side = RADIUS + 4 * mm;
  const corners = [[-side, -side] as const, [side, -side] as const, [side, side] as const, [-side, side] as const];
  const thickness = RADIUS / count;
  return Array.from({ length: count }, (_, n) => ({
    name: `slice ${n}`,
    normal: 'z',
    at: n * thickness,
    thickness,
    outline: { kind: 'polygon', points: corners },
    holes: [{ kind: 'disc', centre: [0, 0], radius: Math.sqrt(RADIUS ** 2 - ((n + 0.5) * thickness) ** 2) }],
  }));
}

async function error(count: number): Promise<number> {
  const scene = sceneOf({
    sheets: slices(count),
    ports: [{ name: 'probe', from: [0, 0, 0], to: [0, 0, 5 * mm], resistance: 3000 }],
    walls: { zLow: { kind: 'metal', at: 0 }, zHigh: { kind: 'metal', at: RADIUS } },
  });
  const rules = { cellsPerWavelength: 2.2 * count, cellsAcrossGap: 1, cellsAcrossWidth: 2 * count };
  const { runs } = await solveFast(scene, { band: { low: 3.4e9, high: 5.4e9 }, quality: 'draft', rules });
  return Math.min(...(runs[0]?.resonances ?? []).map(({ freqHz }) => off(freqHz, EXACT)));
}

it('a spherical cavity rings at its exact mode, and the error falls with the thickness of its slices', async () => {
  const coarse = await error(4);
  const finer = await error(8);
  expect(coarse).toBeLessThan(0.016);
  // Steps of the wall are of the first order: a half, with a little room.
  expect(finer).toBeLessThan(0.6 * coarse);
});
