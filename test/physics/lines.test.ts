/**
 * Lines of known impedance, endless to one side, driven at their open end over a magnetic wall. The resistance that the
 * port sees at a low frequency is the impedance of the line; the port's own inductance is its reactance.
 * Sources: strip in air, exact conformal map (`computed`); microstrip, E. Hammerstad and O. Jensen, IEEE MTT-S Digest
 * (1980) 407 (`memory`; a spectral-domain solution gives 49.185 ohm, `computed`); rod over plane,
 * 59.958 acosh(h/a) (exact); coax, 59.958 ln(b/a) (exact).
 */
import type { Scene, Sheet } from '@sheetwave/field';
import { describe, expect, it } from 'vitest';
import { mm, off, sceneOf, solveFast } from './solve-fast.ts';

const BAND = { low: 0.8e9, high: 3e9 };

async function lineOhm(parts: Partial<Scene>, quality: 'draft' | 'normal' = 'normal'): Promise<number> {
  const scene = sceneOf({ walls: { zLow: { kind: 'metal', at: 0 }, xLow: { kind: 'magnetic', at: 0 } }, ...parts });
  const { z } = await solveFast(scene, { band: BAND, quality, freqHz: [1e9], stopDb: -40 });
  return z[0]?.[0]?.re ?? Number.NaN;
}

/** From x = 0 on, far beyond the grid. */
const strip = (width: number, height: number): Sheet => ({
  name: 'strip',
  normal: 'z',
  at: height,
  thickness: 0,
  outline: {
    kind: 'polygon',
    points: [
      [0, -width / 2],
      [1, -width / 2],
      [1, width / 2],
      [0, width / 2],
    ],
  },
});

const portUp = (height: number) => ({ name: 'port', from: [0, 0, 0], to: [0, 0, height], resistance: 50 }) as const;

describe('the impedance of a line', () => {
  it.each([
    [1, 126.424],
    [3, 69.78],
  ])('strip over a plane in air, w/h = %d', async (ratio, exact) => {
    const h = 3 * mm;
    const openAt = { xHigh: 7 * h, yLow: -9 * h, yHigh: 9 * h, zHigh: 8 * h };
    const found = await lineOhm({ sheets: [strip(ratio * h, h)], ports: [portUp(h)], openAt });
    expect(off(found, exact)).toBeLessThan(0.015);
  });

  it('microstrip, permittivity 4.3, w/h = 2', async () => {
    const h = 2 * mm;
    const endless = Number.POSITIVE_INFINITY;
    const board = { kind: 'box', low: [-endless, -endless, 0], high: [endless, endless, h] } as const;
    const found = await lineOhm({
      sheets: [strip(2 * h, h)],
      solids: [{ name: 'board', shape: board, permittivity: 4.3 }],
      ports: [portUp(h)],
      openAt: { xHigh: 8 * h, yLow: -9 * h, yHigh: 9 * h, zHigh: 8 * h },
    });
    expect(off(found, 49.185)).toBeLessThan(0.02);
  });

  it('thin rod over a plane, h/a = 5', async () => {
    const h = 5 * mm;
    const wire = { name: 'rod', from: [0, 0, h], to: [1, 0, h], radius: h / 5 } as const;
    const openAt = { xHigh: 8 * h, yLow: -9 * h, yHigh: 9 * h, zHigh: 9 * h };
    const found = await lineOhm({ wires: [wire], ports: [portUp(h)], openAt });
    expect(off(found, 137.451)).toBeLessThan(0.015);
  });

  it('round rod as a body of metal over a plane, h/a = 3', async () => {
    const h = 3 * mm;
    const rod: Sheet = {
      name: 'rod',
      normal: 'x',
      at: 0,
      thickness: 1,
      outline: { kind: 'disc', centre: [0, h], radius: h / 3 },
    };
    const openAt = { xHigh: 7 * h, yLow: -9 * h, yHigh: 9 * h, zHigh: 9 * h };
    const found = await lineOhm({ sheets: [rod], ports: [portUp((2 / 3) * h)], openAt });
    expect(off(found, 105.692)).toBeLessThan(0.02);
  });

  it('coax, 50 ohm: b/a = 2.302304', async () => {
    const [a, b, outside] = [1 * mm, 2.302304 * mm, 6 * mm];
    const endless = { normal: 'x', at: 0, thickness: 1 } as const;
    const inner: Sheet = { ...endless, name: 'inner', outline: { kind: 'disc', centre: [0, 0], radius: a } };
    const outer: Sheet = {
      ...endless,
      name: 'outer',
      outline: {
        kind: 'polygon',
        points: [
          [-outside, -outside],
          [outside, -outside],
          [outside, outside],
          [-outside, outside],
        ],
      },
      holes: [{ kind: 'disc', centre: [0, 0], radius: b }],
    };
    const port = { name: 'port', from: [0, 0, b], to: [0, 0, a], resistance: 50 } as const;
    const found = await lineOhm({
      sheets: [inner, outer],
      ports: [port],
      walls: { xLow: { kind: 'magnetic', at: 0 } },
      openAt: { xHigh: 14 * mm, yLow: -4 * mm, yHigh: 4 * mm, zLow: -4 * mm, zHigh: 4 * mm },
    });
    expect(off(found, 50)).toBeLessThan(0.015);
  });
});
