/**
 * A cover over a patch against an independent solution in the frequency domain (`computed` by `spectral-patch.ts`): how far the lowest mode moves.
 * With and without its cover the patch is solved on the very same grid: without it, the sheet is filled with air again.
 */
import { describe, expect, it } from 'vitest';
import { mm, off, sceneOf, solveFast } from './solve-fast.ts';
import { roughResonance, type SlabPatch } from './spectral-patch.ts';

const PATCH: SlabPatch = { lengthM: 9 * mm, widthM: 14 * mm, heightM: 3.175 * mm, permittivity: 2.33 };

async function pole({ lengthM, widthM, heightM, permittivity, cover }: SlabPatch, filled: boolean) {
  if (cover === undefined) throw new Error('a cover is what this is about');
  const [a, b] = [lengthM / 2, widthM / 2];
  const points = [[-a, -b] as const, [a, -b] as const, [a, b] as const, [-a, b] as const];
  const endless = Number.POSITIVE_INFINITY;
  const layer = (from: number, to: number) =>
    ({ kind: 'box', low: [-endless, -endless, from], high: [endless, endless, to] }) as const;
  const sheet = layer(heightM + cover.gapM, heightM + cover.gapM + cover.thicknessM);
  const x = 0.35 * lengthM;
  const scene = sceneOf({
    sheets: [{ name: 'patch', normal: 'z', at: heightM, thickness: 0, outline: { kind: 'polygon', points } }],
    solids: [
      { name: 'slab', shape: layer(0, heightM), permittivity },
      { name: 'cover', shape: sheet, permittivity: cover.permittivity },
      ...(filled ? [] : [{ name: 'air', shape: sheet, permittivity: 1 }]),
    ],
    ports: [{ name: 'probe', from: [x, 0, 0], to: [x, 0, heightM], resistance: 1e6 }],
    walls: { zLow: { kind: 'metal', at: 0 } },
  });
  const { runs, grid } = await solveFast(scene, { band: { low: 6e9, high: 10.5e9 }, quality: 'draft' });
  const found = [...(runs[0]?.resonances ?? [])].sort((p, q) => q.strength - p.strength)[0];
  return { freqHz: found?.freqHz ?? Number.NaN, q: found?.q ?? Number.NaN, nodes: grid.nodes };
}

describe('a cover of permittivity 2.7, 2 mm thick', () => {
  const bare = roughResonance(PATCH, { freqHz: 8.1e9, q: 5 });
  // Close by it lowers the resonance by half a gigahertz; at 4 mm what it throws back raises it.
  it.each([
    [1, 7.6e9, -480],
    [4, 8.2e9, 55],
  ])('%d mm above the patch moves it as the witness has it, on one grid', async (gap, guessHz, aboutMhz) => {
    const covered = { ...PATCH, cover: { gapM: gap * mm, thicknessM: 2 * mm, permittivity: 2.7 } };
    const under = roughResonance(covered, { freqHz: guessHz, q: 3.4 });
    const [without, withIt] = [await pole(covered, false), await pole(covered, true)];
    expect(without.nodes).toEqual(withIt.nodes);
    const expected = under.freqHz / bare.freqHz - 1;
    expect(Math.abs(expected * 8115 - aboutMhz)).toBeLessThan(20);
    expect(Math.abs(withIt.freqHz / without.freqHz - 1 - expected)).toBeLessThan(0.003);
    expect(off(withIt.q / without.q, under.q / bare.q)).toBeLessThan(0.04);
  });
});
