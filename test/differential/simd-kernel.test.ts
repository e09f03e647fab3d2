import { setFlagsFromString } from 'node:v8';
import { detectFeatures, type KernelInput, plainKernel, type Schedule, simdKernel, wasmMemory } from '@sheetwave/field';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gridChoices, MAX_BATCH, randomGrid } from './random-grid.ts';
import { firstDifference, greatestField, plainBits, stateBits } from './same-bits.ts';

// Two kernels written from one description must give the same bits: the emitted one may only change the order of rows.

const SCHEDULES: readonly Schedule[] = [
  { kind: 'two-pass' },
  { kind: 'fused' },
  { kind: 'blocked', rows: 8, steps: 8 },
  { kind: 'blocked', rows: 5, steps: 3 },
  { kind: 'blocked', rows: 3, steps: 7 },
  { kind: 'blocked', rows: 40, steps: 24 },
];
const batchLengths = fc.array(fc.integer({ min: 1, max: MAX_BATCH }), { minLength: 1, maxLength: 3 });

describe.each(SCHEDULES)('the emitted kernel, $kind $rows $steps', (schedule) => {
  test('gives the bits of the plain kernel', () => {
    fc.assert(
      fc.property(gridChoices, batchLengths, (choice, batches) => {
        const judge = randomGrid(choice);
        const expected = plainBits(judge, batches);
        expect(greatestField(judge)).toBeGreaterThan(0.01);
        expect(greatestField(judge)).toBeLessThan(1e9);
        const input = randomGrid(choice, wasmMemory({ isShared: false }));
        const kernel = simdKernel(input, { schedule });
        for (const steps of batches) kernel.advance(steps);
        expect(firstDifference(expected, stateBits(input))).toBeUndefined();
      }),
      { numRuns: 25, seed: 20 },
    );
  });
});

describe('fused multiplication and addition', () => {
  // Node 20 has it behind a flag; later ones without.
  if (!detectFeatures().relaxedSimd) setFlagsFromString('--experimental-wasm-relaxed-simd');

  /** Greatest difference of any field value. */
  function greatestDifference(one: KernelInput, other: KernelInput): number {
    const { nx, sx, ny, nz } = one.layout.shape;
    const differences = Object.values(one.layout.fields).flatMap((offset) => {
      const [a, b] = [one, other].map(({ buffer }) => new Float32Array(buffer, 4 * offset, sx * ny * nz));
      return [...(a ?? [])].map((value, at) => (at % sx < nx ? Math.abs(value - (b?.[at] ?? 0)) : 0));
    });
    return differences.reduce((most, value) => Math.max(most, value), 0);
  }

  // 24 steps of some forty roundings of 6e-8 each, at random, stay well below 1e-5 of the greatest value.
  test('agrees with the plain kernel to the rounding of 32 bits', () => {
    expect(detectFeatures().relaxedSimd).toBe(true);
    fc.assert(
      fc.property(gridChoices, (choice) => {
        const judge = randomGrid(choice);
        plainKernel(judge).advance(MAX_BATCH);
        const input = randomGrid(choice, wasmMemory({ isShared: false }));
        simdKernel(input, { fusedMultiplyAdd: true }).advance(MAX_BATCH);
        expect(greatestDifference(judge, input)).toBeLessThan(1e-5 * greatestField(judge));
      }),
      { numRuns: 10, seed: 23 },
    );
  });
});
