/**
 * A round box of metal: its walls cut the grid everywhere. Modes without variation along the axis are exact,
 * f = j c/(2 pi a) with the zeros j of the Bessel functions (TM010 2.404826, TM110 3.831706; Abramowitz & Stegun, table 9.5).
 */
import { type GridRules, SPEED_OF_LIGHT } from '@sheetwave/field';
import { expect, it } from 'vitest';
import { mm, off, sceneOf, solveFast } from './solve-fast.ts';

const RADIUS = 30 * mm;
const HEIGHT = 12 * mm;
const exact = (zero: number) => (zero * SPEED_OF_LIGHT) / (2 * Math.PI * RADIUS);

const side = 36 * mm;
const scene = sceneOf({
  sheets: [
    {
      name: 'wall',
      normal: 'z',
      at: 0,
      thickness: HEIGHT,
      outline: {
        kind: 'polygon',
        points: [
          [-side, -side],
          [side, -side],
          [side, side],
          [-side, side],
        ],
      },
      holes: [{ kind: 'disc', centre: [0, 0], radius: RADIUS }],
    },
  ],
  ports: [{ name: 'probe', from: [11 * mm, 0, 0], to: [11 * mm, 0, 4 * mm], resistance: 3000 }],
  walls: { zLow: { kind: 'metal', at: 0 }, zHigh: { kind: 'metal', at: HEIGHT } },
});

const BAND = { low: 3e9, high: 7e9 };

async function errors(rules: Partial<GridRules>): Promise<number[]> {
  const { runs } = await solveFast(scene, { band: BAND, quality: 'draft', rules });
  const found = runs[0]?.resonances ?? [];
  return [2.404826, 3.831706].map((zero) => Math.min(...found.map(({ freqHz }) => off(freqHz, exact(zero)))));
}

it('a round cavity rings at its exact modes, and the error falls with the square of the cell', async () => {
  const coarse = await errors({ cellsPerWavelength: 12, cellsAcrossWidth: 16 });
  const finer = await errors({ cellsPerWavelength: 24, cellsAcrossWidth: 32 });
  coarse.forEach((error, n) => {
    expect(error).toBeLessThan(5e-3);
    // A quarter, with room for how the wall happens to cut the cells.
    expect(finer[n]).toBeLessThan(error / 3 + 1e-4);
  });
});
