/**
 * Loss in the edge walls of thick sheets: round bodies along a line carry all their current there. Exact for good conductors:
 * coax R' = Rs/(2 pi) (1/a + 1/b); rod over a plane R' = Rs/(2 pi a) (h/a)/sqrt((h/a)^2 - 1), from the exact current of two
 * opposite cylinders (S. Ramo, J. R. Whinnery, T. Van Duzer, Fields and Waves in Communication Electronics, tables of lines; from
 * memory, and by hand from the potential of two line charges). A piece of the length l loses R' l/Z of the power that passes.
 */
import { type Scene, type Sheet, surfaceResistance } from '@sheetwave/field';
import { expect, it } from 'vitest';
import { mm, off, sceneOf, solveFast } from './solve-fast.ts';

const FREQ = 1e9;
const CONDUCTIVITY = 1e4;
const LENGTH = 6 * mm;

/** Of poor metal from a place on, away from the port, where the current of the line is its own; else perfect. */
function pieces(sheet: Pick<Sheet, 'name' | 'outline' | 'holes'>, from: number): Sheet[] {
  const along = { ...sheet, normal: 'x' } as const;
  return [
    { ...along, at: 0, thickness: from },
    { ...along, at: from, thickness: LENGTH, conductivity: CONDUCTIVITY },
    { ...along, at: from + LENGTH, thickness: 1 },
  ];
}

async function lostPart(parts: Partial<Scene>): Promise<number> {
  const options = { band: { low: 0.4e9, high: 3e9 }, freqHz: [FREQ], farFieldHz: [FREQ], stepDegrees: 30, stopDb: -40 };
  const { farFields } = await solveFast(sceneOf(parts), options);
  return farFields[0]?.balance.metal ?? Number.NaN;
}

const RESISTANCE = surfaceResistance(FREQ, CONDUCTIVITY);

it('a coax of 50 ohm loses what its two conductors say', async () => {
  const [a, b, side] = [1 * mm, 2.302304 * mm, 6 * mm];
  const corners = [[-side, -side] as const, [side, -side] as const, [side, side] as const, [-side, side] as const];
  const inner = { name: 'inner', outline: { kind: 'disc', centre: [0, 0], radius: a } } as const;
  const outer = {
    name: 'outer',
    outline: { kind: 'polygon', points: corners },
    holes: [{ kind: 'disc', centre: [0, 0], radius: b }],
  } as const;
  const found = await lostPart({
    sheets: [...pieces(inner, 5 * mm), ...pieces(outer, 5 * mm)],
    ports: [{ name: 'port', from: [0, 0, b], to: [0, 0, a], resistance: 50 }],
    walls: { xLow: { kind: 'magnetic', at: 0 } },
    openAt: { xHigh: 14 * mm, yLow: -4 * mm, yHigh: 4 * mm, zLow: -4 * mm, zHigh: 4 * mm },
  });
  const expected = ((RESISTANCE / (2 * Math.PI)) * (1 / a + 1 / b) * LENGTH) / 50;
  expect(off(found, expected)).toBeLessThan(0.12);
});

it('a rod over a plane, h/a = 3, loses what its crowded current says', async () => {
  const [h, a, from] = [3 * mm, 1 * mm, 9 * mm];
  const rod = { name: 'rod', outline: { kind: 'disc', centre: [0, h], radius: a } } as const;
  const found = await lostPart({
    sheets: pieces(rod, from),
    ports: [{ name: 'port', from: [0, 0, 0], to: [0, 0, h - a], resistance: 106 }],
    walls: { zLow: { kind: 'metal', at: 0 }, xLow: { kind: 'magnetic', at: 0 } },
    openAt: { xHigh: 7 * h, yLow: -9 * h, yHigh: 9 * h, zHigh: 9 * h },
  });
  // 59.958 acosh 3 ohm.
  const expected = (((RESISTANCE / (2 * Math.PI * a)) * 3) / Math.sqrt(8)) * (LENGTH / 105.692);
  expect(off(found, expected)).toBeLessThan(0.2);
});
