/**
 * Patches over air against an independent field solution (`computed`): another time-domain grid code, two meshes
 * extrapolated; the pole of the lowest mode. L = 23 mm, endless plane. Uncertainty 0.2 % in frequency, 2 % in Q.
 */
import type { Sheet } from '@sheetwave/field';
import { describe, expect, it } from 'vitest';
import { mm, off, sceneOf, solveFast } from './solve-fast.ts';

interface Patch {
  readonly length?: number;
  readonly width?: number;
  readonly height?: number;
  readonly thickness?: number;
  /** mm, of the patch against its port. */
  readonly shift?: number;
  readonly degrees?: number;
}

const BAND = { low: 3.8e9, high: 6.6e9 };

/** A port of 100 kilohm hears the patch without loading it. */
function scene({ length = 23, width = 25, height = 3, thickness = 0, shift = 0, degrees = 0 }: Patch) {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const corner = (x: number, y: number) => [(shift + x * c - y * s) * mm, (x * s + y * c) * mm] as const;
  const [a, b] = [length / 2, width / 2];
  const patch: Sheet = {
    name: 'patch',
    normal: 'z',
    at: height * mm,
    thickness: thickness * mm,
    outline: { kind: 'polygon', points: [corner(-a, -b), corner(a, -b), corner(a, b), corner(-a, b)] },
  };
  const [x, y] = [5 * mm * c, 5 * mm * s];
  const port = { name: 'probe', from: [x, y, 0], to: [x, y, height * mm], resistance: 1e5 } as const;
  return sceneOf({ sheets: [patch], ports: [port], walls: { zLow: { kind: 'metal', at: 0 } } });
}

async function pole(patch: Patch, quality: 'draft' | 'normal' = 'normal') {
  const { runs } = await solveFast(scene(patch), { band: BAND, quality });
  const lowest = runs[0]?.resonances.find(({ strength }) => strength > 0.1);
  if (!lowest) throw new Error('no resonance');
  return lowest;
}

describe('air patches', () => {
  it.each([
    [25, 2, 0, 5.588, 14.9],
    [25, 3, 0, 5.334, 10.25],
    [25, 4, 0, 5.132, 7.95],
    [10, 3, 0, 5.504, undefined],
    [25, 3, 0.5, 5.205, undefined],
    [25, 3, 1, 5.125, undefined],
  ])('%d mm wide, %d mm up, %d mm thick', async (width, height, thickness, gigahertz, q) => {
    const found = await pole({ width, height, thickness });
    expect(off(found.freqHz, gigahertz * 1e9)).toBeLessThan(0.006);
    if (q !== undefined) expect(off(found.q, q)).toBeLessThan(0.03);
  });

  it('filed by 0.05 mm at a time rises smoothly', async () => {
    const found: number[] = [];
    for (const length of [23.2, 23.15, 23.1, 23.05, 23]) found.push((await pole({ length })).freqHz);
    const steps = found.slice(1).map((freq, n) => freq / (found[n] ?? Number.NaN) - 1);
    // The resonance goes as 1/(L + 3.6 mm): 0.19 % for each 0.05 mm.
    for (const step of steps) expect(step / 0.00187).toBeGreaterThan(0.85);
    for (const step of steps) expect(step / 0.00187).toBeLessThan(1.15);
  });

  it('moved or turned on the grid changes by less than 0.3 %', async () => {
    const straight = (await pole({})).freqHz;
    for (const shift of [0.2, 0.5])
      expect(off((await pole({ shift })).freqHz, straight), `${shift}`).toBeLessThan(0.003);
    for (const degrees of [15, 45])
      expect(off((await pole({ degrees })).freqHz, straight), `${degrees}`).toBeLessThan(0.003);
  });

  it('states an error that covers the one it has', async () => {
    const { runs, meshError } = await solveFast(scene({}), { band: BAND, twoMeshes: true });
    const found = runs[0]?.resonances.find(({ strength }) => strength > 0.1)?.freqHz ?? Number.NaN;
    const error = off(found, 5.334e9);
    expect(meshError?.resonance).toBeGreaterThan(0.5 * error);
    expect(meshError?.resonance).toBeLessThan(4 * error + 0.002);
  });

  it('converges: draft, normal', async () => {
    const draft = off((await pole({}, 'draft')).freqHz, 5.334e9);
    const normal = off((await pole({}, 'normal')).freqHz, 5.334e9);
    expect(normal).toBeLessThan(draft);
    expect(draft).toBeLessThan(0.012);
  });
});
