import { describe, expect, it } from 'vitest';
import { spacings } from './grid.ts';
import { planGrid } from './plan-grid.ts';
import { GRID_RULES } from './quality.ts';
import type { Outline, Scene, Solid } from './scene.ts';

const MM = 1e-3;
const BAND = { low: 1e9, high: 1.8e9 };

const layer = (low: number, high: number, permittivity: number): Solid => ({
  name: 'layer',
  permittivity,
  shape: { kind: 'box', low: [-Infinity, -Infinity, low], high: [Infinity, Infinity, high] },
});

const sceneWith = (at: number, outline: Outline, solids: readonly Solid[]): Scene => ({
  sheets: [{ name: 'patch', normal: 'z', at, thickness: 0, outline }],
  solids,
  wires: [],
  ports: [],
  walls: { zLow: { kind: 'metal', at: 0 } },
});

/** m: the largest cell along x between two places. */
function largestBetween(scene: Scene, low: number, high: number): number {
  const { lines } = planGrid({ scene, band: BAND, quality: 'normal', symmetry: {} });
  const inside = [...spacings(lines.x)].filter((_, n) => (lines.x[n + 1] ?? 0) > low && (lines.x[n] ?? 0) < high);
  return Math.max(...inside);
}

describe('the cells along a sheet', () => {
  it('go by the layer under it, also where heights add up with an error of rounding', () => {
    const top = 1 * MM + 1.59 * MM;
    expect(top).not.toBe(2.59 * MM);
    const disc = { kind: 'disc', centre: [0, 0], radius: 50 * MM } as const;
    const scene = sceneWith(2.59 * MM, disc, [layer(1 * MM, top, 2.32)]);
    const cell = (1.59 * MM) / GRID_RULES.normal.cellsAcrossGap;
    expect(largestBetween(scene, -50 * MM, 50 * MM)).toBeLessThan(1.1 * cell);
  });

  it('are as many in the shorter wave on a dense layer as in air', () => {
    const points = [[-20, -20] as const, [20, -20] as const, [20, 20] as const, [-20, 20] as const];
    const square = { kind: 'polygon', points: points.map(([u, v]) => [u * MM, v * MM] as const) } as const;
    // In air 299.8 mm / 1.8 in 20 cells, 1.6 times as many under a sheet that resonates: 5.2 mm. By hand.
    const inAir = 299.8 / 1.8 / 20 / 1.6;
    expect(largestBetween(sceneWith(20 * MM, square, []), -5 * MM, 5 * MM)).toBeLessThan(1.1 * inAir * MM);
    const onBoard = sceneWith(20 * MM, square, [layer(0, 20 * MM, 9)]);
    expect(largestBetween(onBoard, -5 * MM, 5 * MM)).toBeLessThan((1.1 * inAir * MM) / 3);
  });
});
