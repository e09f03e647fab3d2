/**
 * Closed boxes of metal, whose modes are known exactly: f = (c/2) sqrt((m/a)^2 + (n/b)^2 + (l/d)^2), and with a slab across
 * the box tan(b1 t)/b1 + tan(b0 (d - t))/b0 = 0 (D. M. Pozar, Microwave Engineering, sections 6.3 and 3.3). `computed`:
 * the values are those formulas evaluated outside this project.
 */
import { describe, expect, it } from 'vitest';
import { mm, off, sceneOf, solveFast } from './solve-fast.ts';

const BOX = { a: 100 * mm, b: 50 * mm, d: 80 * mm };

const walls = {
  xLow: { kind: 'metal', at: 0 },
  xHigh: { kind: 'metal', at: BOX.a },
  yLow: { kind: 'metal', at: 0 },
  yHigh: { kind: 'metal', at: BOX.b },
  zLow: { kind: 'metal', at: 0 },
  zHigh: { kind: 'metal', at: BOX.d },
} as const;

// A short gap of high resistance on the floor hears the modes with E along y and hardly loads them.
const ports = [
  { name: 'probe', from: [37 * mm, 0, 29 * mm], to: [37 * mm, 4 * mm, 29 * mm], resistance: 3000 },
] as const;

const modes = async (parts: object, band = { low: 2e9, high: 4.2e9 }) => {
  const scene = sceneOf({ walls, ports, ...parts });
  const { runs } = await solveFast(scene, { band, quality: 'normal' });
  return runs[0]?.resonances ?? [];
};

const nearest = (found: readonly { freqHz: number }[], wanted: number) =>
  Math.min(...found.map(({ freqHz }) => off(freqHz, wanted)));

describe('a box of 100 x 50 x 80 mm', () => {
  it('rings at its exact modes', async () => {
    const found = await modes({});
    // TE101, TE201, TE102.
    for (const exact of [2.39951e9, 3.535295e9, 4.036079e9])
      expect(nearest(found, exact), `${exact}`).toBeLessThan(2e-3);
  });

  it.each([
    [20, 2.2, 2.247978e9],
    [10, 4.3, 2.336435e9],
  ])('with a slab of %d mm and permittivity %d on one wall', async (thickness, permittivity, exact) => {
    const slab = { kind: 'box', low: [0, 0, 0], high: [BOX.a, BOX.b, thickness * mm] } as const;
    // A narrow pulse rings the lowest mode alone.
    const found = await modes({ solids: [{ name: 'slab', shape: slab, permittivity }] }, { low: 1.9e9, high: 2.6e9 });
    expect(nearest(found, exact)).toBeLessThan(3e-3);
  });

  it.each([
    [20, 2.2, 2.247978e9],
    [10, 4.3, 2.336435e9],
  ])(
    'with a slab of %d mm and permittivity %d the error falls with the square of the cell',
    async (thickness, permittivity, exact) => {
      const slab = { kind: 'box', low: [0, 0, 0], high: [BOX.a, BOX.b, thickness * mm] } as const;
      const scene = sceneOf({ walls, ports, solids: [{ name: 'slab', shape: slab, permittivity }] });
      const errors: number[] = [];
      for (const cells of [12, 24]) {
        const rules = { cellsPerWavelength: cells, cellsAcrossGap: cells / 4 };
        const { runs } = await solveFast(scene, { band: { low: 1.9e9, high: 2.6e9 }, rules });
        errors.push(nearest(runs[0]?.resonances ?? [], exact));
      }
      expect(errors[0]).toBeLessThan(4e-3);
      // A quarter, with room for how many cells fit.
      expect(errors[1]).toBeLessThan((errors[0] ?? 0) / 3);
    },
  );

  it('full of a lossy dielectric has the quality of its loss tangent', async () => {
    // f0 / sqrt(2.25); conductivity holds the tangent at the centre of the band, so that Q = (f / centre) / tangent (exact).
    const solids = [{ name: 'fill', shape: { kind: 'box', low: [0, 0, 0], high: [BOX.a, BOX.b, BOX.d] } }].map(
      (solid) => ({
        ...solid,
        permittivity: 2.25,
        lossTangent: 0.01,
      }),
    );
    const band = { low: 1.3e9, high: 1.9e9 };
    const [lowest] = await modes({ solids }, band);
    expect(off(lowest?.freqHz ?? 0, 2.39951e9 / 1.5)).toBeLessThan(2e-3);
    expect(off(lowest?.q ?? 0, 2.39951e9 / 1.5 / 1.6e9 / 0.01)).toBeLessThan(0.03);
  });
});
