/**
 * The absorbing layer against a space so large that its walls are not heard in time: what comes back must lie below
 * -60 dB (J. A. Roden and S. D. Gedney, Microw. Opt. Technol. Lett. 27 (2000) 334, for this kind of layer). And the power
 * that a source gives must leave through the surface around it (law).
 */
import { planScene, pulseFor, runExcitation, type Scene, simdKernel, type Traces, wasmMemory } from '@sheetwave/field';
import { describe, expect, it } from 'vitest';
import { mm, sceneOf, solveFast } from './solve-fast.ts';

const BAND = { low: 2e9, high: 6e9 };

/** Two short gaps, one driven, one listening, with this much space around. */
const gaps = (space: number): Scene =>
  sceneOf({
    ports: [0, 16].map((x, n) => ({
      name: `${n}`,
      from: [x * mm, 0, 0] as const,
      to: [x * mm, 0, 8 * mm] as const,
      resistance: 300,
    })),
    openAt: {
      xLow: -space,
      xHigh: 16 * mm + space,
      yLow: -space,
      yHigh: space,
      zLow: -space,
      zHigh: 8 * mm + space,
    },
  });

async function heard(space: number): Promise<Traces> {
  const rules = { cellsPerWavelength: 12.5 };
  const { model } = planScene(gaps(space), { band: BAND, quality: 'draft', rules });
  const waveform = pulseFor(BAND);
  const mostSteps = Math.ceil((1.6 * waveform.end) / model.dt);
  return runExcitation({
    model,
    port: 0,
    waveform,
    kernel: (input) => simdKernel(input),
    allocate: wasmMemory({ isShared: false }),
    observers: [],
    stopDb: -200,
    mostSteps,
    batch: 16,
  });
}

describe('the absorbing layer', () => {
  it('sends back less than -60 dB', async () => {
    const near = await heard(24 * mm);
    const far = await heard(96 * mm);
    const [a, b] = [near.volts[1] ?? [], far.volts[1] ?? []];
    expect(near.dt).toBeCloseTo(far.dt, 16);
    const highest = Math.max(...[...b].map(Math.abs));
    const steps = Math.min(a.length, b.length);
    const difference = Math.max(...Array.from({ length: steps }, (_, n) => Math.abs((a[n] ?? 0) - (b[n] ?? 0))));
    expect(20 * Math.log10(difference / highest)).toBeLessThan(-60);
  });
});

describe('energy', () => {
  it('what a plate over a finite plane accepts leaves through the surface', async () => {
    const square = (side: number, at: number) =>
      ({
        name: `${side}`,
        normal: 'z',
        at,
        thickness: 0,
        outline: {
          kind: 'polygon',
          points: [
            [-side / 2, -side / 2],
            [side / 2, -side / 2],
            [side / 2, side / 2],
            [-side / 2, side / 2],
          ],
        },
      }) as const;
    const scene = sceneOf({
      sheets: [square(50 * mm, 0), square(24 * mm, 4 * mm)],
      ports: [{ name: 'probe', from: [7 * mm, 0, 0], to: [7 * mm, 0, 4 * mm], resistance: 50 }],
    });
    const options = { band: { low: 4e9, high: 6e9 }, quality: 'draft', farFieldHz: [4.6e9, 5e9, 5.4e9] } as const;
    const { farFields, s } = await solveFast(scene, options);
    for (const { balance } of farFields) expect(Math.abs(balance.radiated - 1)).toBeLessThan(0.01);
    // No passive structure sends back more than it gets.
    for (const matrix of s) expect(Math.hypot(matrix[0]?.[0]?.re ?? 9, matrix[0]?.[0]?.im ?? 9)).toBeLessThan(1.001);
    // Directivity and the surface agree on the direction: straight up.
    expect(farFields[1]?.pattern.peak.theta).toBeLessThan(0.6);
  });
});
