import { fastKernel, type Schedule, wasmMemory } from '@sheetwave/field';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gridChoices, MAX_BATCH, randomGrid } from './random-grid.ts';
import { firstDifference, plainBits, stateBits } from './same-bits.ts';

// Any number of threads must give the bits of the plain kernel. More threads than processors are wanted here: then threads
// are interrupted at any place, and sleep for each other.

const SCHEDULES: readonly Schedule[] = [
  { kind: 'two-pass' },
  { kind: 'fused' },
  { kind: 'blocked', rows: 8, steps: 8 },
  { kind: 'blocked', rows: 2, steps: 3 },
  { kind: 'blocked', rows: 40, steps: 24 },
];
const batchLengths = fc.array(fc.integer({ min: 1, max: MAX_BATCH }), { minLength: 1, maxLength: 3 });
const sharedMemory = wasmMemory({ isShared: true });

describe.each(SCHEDULES)('threads of the emitted kernel, $kind $rows $steps', (schedule) => {
  test.each([2, 3, 5])('%d give the bits of the plain kernel', async (threads) => {
    await fc.assert(
      fc.asyncProperty(gridChoices, batchLengths, async (choice, batches) => {
        const expected = plainBits(randomGrid(choice), batches);
        const input = randomGrid(choice, sharedMemory);
        const kernel = await fastKernel(input, { schedule, threads });
        for (const steps of batches) await kernel.advance(steps);
        kernel.close();
        expect(firstDifference(expected, stateBits(input))).toBeUndefined();
      }),
      { numRuns: 5, seed: 21 },
    );
  });
});

describe('the life of a threaded kernel', () => {
  const choice = fc.sample(gridChoices, { numRuns: 1, seed: 22 })[0] as Parameters<typeof randomGrid>[0];

  test('another kernel may follow on the same memory', async () => {
    const expected = plainBits(randomGrid(choice), [5, 5, 5]);
    const input = randomGrid(choice, sharedMemory);
    for (const threads of [2, 3, 1]) {
      const kernel = await fastKernel(input, { threads });
      await kernel.advance(5);
      kernel.close();
    }
    expect(firstDifference(expected, stateBits(input))).toBeUndefined();
  });

  test('closed or aborted, it refuses to go on', async () => {
    const input = randomGrid(choice, sharedMemory);
    const controller = new AbortController();
    const kernel = await fastKernel(input, { threads: 2, signal: controller.signal });
    await kernel.advance(3);
    controller.abort(new Error('enough'));
    expect(() => kernel.advance(3)).toThrow('enough');
    await expect(fastKernel(input, { threads: 2, signal: controller.signal })).rejects.toThrow('enough');
    const other = await fastKernel(input, { threads: 1 });
    other.close();
    expect(() => other.advance(1)).toThrow('The kernel was closed.');
  });

  test('it asks for shared memory, and for steps that fit a batch', async () => {
    await expect(fastKernel(randomGrid(choice, wasmMemory({ isShared: false })), { threads: 2 })).rejects.toThrow(
      'isShared: true',
    );
    await expect(fastKernel(randomGrid(choice), { threads: 1 })).rejects.toThrow('wasmMemory()');
    const kernel = await fastKernel(randomGrid(choice, sharedMemory), { threads: 1 });
    for (const steps of [0, 1.5, MAX_BATCH + 1, Number.NaN]) expect(() => kernel.advance(steps)).toThrow(RangeError);
  });
});
