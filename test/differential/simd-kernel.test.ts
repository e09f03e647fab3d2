import { type Schedule, simdKernel, wasmMemory } from '@sheetwave/field';
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
