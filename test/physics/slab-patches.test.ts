/**
 * Patches on an endless slab against an independent solution in the frequency domain (`computed` by `spectral-patch.ts`, which
 * has no grid, no absorbing layer and no port): frequency and quality of the lowest mode.
 */
import { describe, expect, it } from 'vitest';
import { mm, off, sceneOf, solveFast } from './solve-fast.ts';
import { type SlabPatch, slabPatchResonance } from './spectral-patch.ts';

type Quality = 'draft' | 'normal' | 'fine';

const patchOf = (length: number, width: number, height: number, permittivity: number): SlabPatch => ({
  lengthM: length * mm,
  widthM: width * mm,
  heightM: height * mm,
  permittivity,
});

async function pole({ lengthM, widthM, heightM, permittivity }: SlabPatch, guessHz: number, quality: Quality) {
  const [a, b] = [lengthM / 2, widthM / 2];
  const points = [[-a, -b] as const, [a, -b] as const, [a, b] as const, [-a, b] as const];
  const endless = Number.POSITIVE_INFINITY;
  const shape = { kind: 'box', low: [-endless, -endless, 0], high: [endless, endless, heightM] } as const;
  const x = 0.35 * lengthM;
  const scene = sceneOf({
    sheets: [{ name: 'patch', normal: 'z', at: heightM, thickness: 0, outline: { kind: 'polygon', points } }],
    solids: permittivity > 1 ? [{ name: 'slab', shape, permittivity }] : [],
    ports: [{ name: 'probe', from: [x, 0, 0], to: [x, 0, heightM], resistance: 1e6 }],
    walls: { zLow: { kind: 'metal', at: 0 } },
  });
  const { runs } = await solveFast(scene, { band: { low: 0.75 * guessHz, high: 1.3 * guessHz }, quality });
  const found = [...(runs[0]?.resonances ?? [])].sort((p, q) => q.strength - p.strength)[0];
  return found ?? { freqHz: Number.NaN, q: Number.NaN };
}

it('the witness itself gives the air patch of another independent solution: 5.334 GHz, 0.2 %; Q 10.25, 2 %', () => {
  const { freqHz, q } = slabPatchResonance(patchOf(23, 25, 3, 1), { freqHz: 5.3e9, q: 10 });
  expect(off(freqHz, 5.334e9)).toBeLessThan(0.002);
  expect(off(q, 10.25)).toBeLessThan(0.02);
});

describe('patches on a slab', () => {
  it('9 x 14 mm on 3.175 mm of permittivity 2.33', async () => {
    const patch = patchOf(9, 14, 3.175, 2.33);
    const witness = slabPatchResonance(patch, { freqHz: 8.1e9, q: 5 });
    const found = await pole(patch, 8.1e9, 'normal');
    expect(off(found.freqHz, witness.freqHz)).toBeLessThan(0.004);
    expect(off(found.q, witness.q)).toBeLessThan(0.03);
  });

  it('18.6 x 17.2 mm on 1.57 mm of permittivity 2.33: what is left of the edges is at least of the first order in the cell', async () => {
    const patch = patchOf(18.6, 17.2, 1.57, 2.33);
    const { freqHz, q } = slabPatchResonance(patch, { freqHz: 4.88e9, q: 27 });
    const errors: number[] = [];
    for (const quality of ['draft', 'normal', 'fine'] as const) {
      const found = await pole(patch, freqHz, quality);
      errors.push(off(found.freqHz, freqHz));
      expect(off(found.q, q)).toBeLessThan(0.03);
    }
    const [draft = 1, normal = 1, fine = 1] = errors;
    // 2, 3 and 5 cells across the slab; the witness is known to 0.05 %.
    expect(normal).toBeLessThan((2 / 3) * draft + 5e-4);
    expect(normal).toBeLessThan(0.004);
    expect(fine).toBeLessThan((3 / 5) * normal + 5e-4);
    expect(fine).toBeLessThan(0.002);
  });
});
