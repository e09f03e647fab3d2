/**
 * Lines of known impedance, endless to one side, driven at their open end over a magnetic wall. The resistance that the
 * port sees at a low frequency is the impedance of the line; the port's own inductance is its reactance.
 * Sources: strip in air, exact conformal map (`computed`); microstrip, E. Hammerstad and O. Jensen, IEEE MTT-S Digest
 * (1980) 407 (`memory`; and a spectral-domain solution, `computed`: the values here); rod over plane,
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

  it.each([
    [4.3, 2, 49.1851, 0.02],
    [2.2, 1, 94.908, 0.02],
    [10.2, 2, 32.947, 0.025],
  ])('microstrip, permittivity %d, w/h = %d', async (permittivity, ratio, exact, within) => {
    const h = 2 * mm;
    const endless = Number.POSITIVE_INFINITY;
    const board = { kind: 'box', low: [-endless, -endless, 0], high: [endless, endless, h] } as const;
    const found = await lineOhm({
      sheets: [strip(ratio * h, h)],
      solids: [{ name: 'board', shape: board, permittivity }],
      ports: [portUp(h)],
      openAt: { xHigh: 8 * h, yLow: -9 * h, yHigh: 9 * h, zHigh: 8 * h },
    });
    expect(off(found, exact)).toBeLessThan(within);
  });

  it.each([
    [5, 137.451],
    [20, 221.142],
  ])('thin rod over a plane, h/a = %d', async (ratio, exact) => {
    const h = 5 * mm;
    const wire = { name: 'rod', from: [0, 0, h], to: [1, 0, h], radius: h / ratio } as const;
    const openAt = { xHigh: 8 * h, yLow: -9 * h, yHigh: 9 * h, zHigh: 9 * h };
    const found = await lineOhm({ wires: [wire], ports: [portUp(h)], openAt });
    expect(off(found, exact)).toBeLessThan(0.015);
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

  it.each([
    [50, 2.302304],
    [75, 3.493365],
  ])('coax, %d ohm: b/a = %d', async (exact, ratio) => {
    const [a, b, outside] = [1 * mm, ratio * mm, 6 * mm];
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
    const port = { name: 'port', from: [0, 0, b], to: [0, 0, a], resistance: exact } as const;
    const found = await lineOhm({
      sheets: [inner, outer],
      ports: [port],
      walls: { xLow: { kind: 'magnetic', at: 0 } },
      openAt: { xHigh: 14 * mm, yLow: -4 * mm, yHigh: 4 * mm, zLow: -4 * mm, zHigh: 4 * mm },
    });
    expect(off(found, exact)).toBeLessThan(0.015);
  });

  it('strip half way between two planes, w/b = 1: driven from both planes at once', async () => {
    const b = 4 * mm;
    const to = [0, 0, b / 2] as const;
    const scene = sceneOf({
      sheets: [strip(b, b / 2)],
      ports: [
        { name: 'below', from: [0, 0, 0], to, resistance: 130 },
        { name: 'above', from: [0, 0, b], to, resistance: 130 },
      ],
      walls: {
        zLow: { kind: 'metal', at: 0 },
        zHigh: { kind: 'metal', at: b },
        xLow: { kind: 'magnetic', at: 0 },
      },
      openAt: { xHigh: 4 * b, yLow: -3 * b, yHigh: 3 * b },
    });
    const { s } = await solveFast(scene, { band: BAND, freqHz: [1e9], stopDb: -40 });
    const [own, other] = [s[0]?.[0]?.[0], s[0]?.[1]?.[0]];
    const sum = { re: (own?.re ?? 0) + (other?.re ?? 0), im: (own?.im ?? 0) + (other?.im ?? 0) };
    // Both ports see twice the impedance of the line: Z = 130 (1 + sum)/(1 - sum).
    const resistance = (130 * (1 - sum.re ** 2 - sum.im ** 2)) / ((1 - sum.re) ** 2 + sum.im ** 2);
    // eta0/4 K(k)/K(k'), k = sech(pi w/2b) (exact conformal map, S. B. Cohn 1954; `computed`).
    expect(off(resistance / 2, 65.354)).toBeLessThan(0.015);
  });
});
