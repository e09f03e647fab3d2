/**
 * Ports that mirror into each other (law: the equations are the same in a mirror): the answers for a port that was not
 * driven, because another is its image, are those of driving it.
 */
import type { Scene, Solution } from '@sheetwave/field';
import { describe, expect, it } from 'vitest';
import { mm, sceneOf, solveFast } from './solve-fast.ts';

const BAND = { low: 4.5e9, high: 6.5e9 };
const options = { band: BAND, quality: 'draft', freqHz: [5e9, 5.5e9, 6e9], stepDegrees: 15 } as const;

/** A patch with its probe off the middle, towards the outer side by so much. */
const patchAt = (x: number, y: number, shift: readonly [number, number]) => ({
  sheet: {
    name: `patch ${x} ${y}`,
    normal: 'z',
    at: 3 * mm,
    thickness: 0,
    outline: {
      kind: 'polygon',
      points: [
        [-12, -9],
        [12, -9],
        [12, 9],
        [-12, 9],
      ].map(([u = 0, v = 0]) => [(x + u) * mm, (y + v) * mm] as const),
    },
  } as const,
  port: {
    name: `probe ${x} ${y}`,
    from: [(x + shift[0]) * mm, (y + shift[1]) * mm, 0],
    to: [(x + shift[0]) * mm, (y + shift[1]) * mm, 3 * mm],
    resistance: 50,
  } as const,
});

const sceneWith = (patches: ReturnType<typeof patchAt>[]): Scene =>
  sceneOf({
    sheets: patches.map(({ sheet }) => sheet),
    ports: patches.map(({ port }) => port),
    walls: { zLow: { kind: 'metal', at: 0 } },
  });

function largestDifference(one: Solution, other: Solution): number {
  const parts = (solution: Solution) => solution.s.flat(2).flatMap(({ re, im }) => [re, im]);
  const found = parts(other);
  return Math.max(...parts(one).map((value, n) => Math.abs(value - (found[n] ?? Number.NaN))));
}

describe('four patches, mirrored in two planes', () => {
  const scene = sceneWith([
    patchAt(-15, -12, [-5, -3]),
    patchAt(15, -12, [5, -3]),
    patchAt(-15, 12, [-5, 3]),
    patchAt(15, 12, [5, 3]),
  ]);

  it('one run gives all columns, and the far field of every port', async () => {
    const once = await solveFast(scene, { ...options, farFieldHz: [5.5e9] });
    const each = await solveFast(scene, { ...options, farFieldHz: [5.5e9], symmetry: false });
    expect([once.runs.length, each.runs.length]).toEqual([1, 4]);
    expect([once.runOfPort, each.runOfPort]).toEqual([
      [0, 0, 0, 0],
      [0, 1, 2, 3],
    ]);
    expect(largestDifference(once, each)).toBeLessThan(1e-4);
    expect(once.farFields.map(({ pattern }) => pattern.port)).toEqual([0, 1, 2, 3]);
    once.farFields.forEach(({ pattern, gainDbi }, n) => {
      const own = each.farFields[n];
      expect(gainDbi).toBeCloseTo(own?.gainDbi ?? Number.NaN, 3);
      for (const part of ['thetaPart', 'phiPart', 'mixRe', 'mixIm'] as const) {
        pattern[part].forEach((value, m) => {
          expect(value, part).toBeCloseTo(own?.pattern[part][m] ?? Number.NaN, 2);
        });
      }
      expect(pattern.peak).toEqual(own?.pattern.peak);
    });
  });
});

describe('ports whose mirror image is turned round, and ports in the plane', () => {
  it('an upside-down image counts with the other sign', async () => {
    const [a, b] = [patchAt(-15, 0, [0, 0]), patchAt(15, 0, [0, 0])];
    // Gaps in the middle of two strips along x; the second is driven the other way round.
    const strip = (x: number) => [
      [x - 10, x - 1],
      [x + 1, x + 10],
    ];
    const sheets = [...strip(-15), ...strip(15)].map(([from = 0, to = 0], n) => ({
      ...a.sheet,
      name: `arm ${n}`,
      outline: {
        kind: 'polygon' as const,
        points: [
          [from, -2],
          [to, -2],
          [to, 2],
          [from, 2],
        ].map(([u = 0, v = 0]) => [u * mm, v * mm] as const),
      },
    }));
    const gap = (x: number) => ({ from: [(x - 1) * mm, 0, 3 * mm], to: [(x + 1) * mm, 0, 3 * mm] }) as const;
    const turned = sceneOf({
      sheets,
      ports: [
        { ...a.port, ...gap(-15) },
        { ...b.port, ...gap(15) },
      ],
      walls: { zLow: { kind: 'metal', at: -3 * mm } },
    });
    const once = await solveFast(turned, options);
    const each = await solveFast(turned, { ...options, symmetry: false });
    expect(once.runs).toHaveLength(1);
    expect(largestDifference(once, each)).toBeLessThan(1e-4);
  });

  it('two ports in one plane are both halved, and each is driven', async () => {
    const scene = sceneWith([patchAt(-15, 0, [-5, 0]), patchAt(17, 0, [4, 0])]);
    const halved = await solveFast(scene, options);
    const whole = await solveFast(scene, { ...options, symmetry: false });
    expect(halved.symmetry.y).toMatchObject({ kind: 'magnetic', used: true });
    expect(halved.runs).toHaveLength(2);
    expect(halved.grid.cells).toBeLessThan(0.7 * whole.grid.cells);
    expect(largestDifference(halved, whole)).toBeLessThan(1e-4);
  });
});
