import { describe, expect, test } from 'vitest';
import { type AxisNumbers, buildMemory } from '../../memory.ts';
import { nodeHost } from '../../node.ts';
import { plainKernel } from '../plain.ts';
import { wasmMemory } from '../simd/memory.ts';
import type { Host } from './host.ts';
import { threadedKernel } from './threaded-kernel.ts';

// On the thread that draws a page the workers do everything, and tell the end of each batch by message. Here Node's
// workers stand for those of a page.

const node = nodeHost() as Host;
const page: Host = { ...node, maySleep: false };

const axis = (count: number): AxisNumbers => ({
  inverse: new Float32Array(count).fill(0.5),
  b: new Float32Array(count),
  c: new Float32Array(count),
});
const NODES = 20;
const halfStep = (count: number) => ({ x: axis(count), y: axis(count), z: axis(count) });
const NONE = { low: 0, high: 0 };

/** An open box full of noise: something moves in it, and nothing has to be right. */
function box() {
  const input = buildMemory({
    nx: NODES,
    ny: NODES,
    nz: NODES,
    layers: { x: NONE, y: NONE, z: NONE },
    electric: halfStep(NODES),
    magnetic: halfStep(NODES - 1),
    operations: [{ component: 'ez', i: 9, j: 9, k: 9, wave: 0, drive: 1, back: 0, gain: 0 }],
    probes: [{ component: 'ez', i: 11, j: 10, k: 9 }],
    waveCount: 1,
    maxBatch: 16,
    allocate: wasmMemory({ isShared: true }),
    coefficients: {
      magnetic: () => false,
      electric(_, { j, k }, { ca, cb }) {
        if (j === 0 || k === 0 || j === NODES - 1 || k === NODES - 1) return;
        ca.fill(1, 1, NODES - 1);
        cb.fill(1, 1, NODES - 1);
      },
    },
  });
  const { layout } = input;
  const memory = new Float32Array(input.buffer, 0, layout.end);
  memory.fill(1, layout.waves, layout.waves + layout.maxBatch);
  return { input, records: () => memory.slice(layout.records, layout.records + 16) };
}

describe('on the thread that draws a page', () => {
  test('a batch is awaited, and gives the bits of the plain kernel', async () => {
    const judge = box();
    const plain = plainKernel(judge.input);
    plain.advance(16);
    plain.advance(16);
    const paged = box();
    const kernel = await threadedKernel(paged.input, { threads: 3, host: page });
    await kernel.advance(16);
    await kernel.advance(16);
    kernel.close();
    expect(judge.records().some((value) => Math.abs(value) > 1e-3)).toBe(true);
    expect(paged.records()).toEqual(judge.records());
  });

  test('an abort in the middle of a batch rejects with its reason', async () => {
    const controller = new AbortController();
    const { input } = box();
    const kernel = await threadedKernel(input, { threads: 2, host: page, signal: controller.signal });
    const batch = kernel.advance(16);
    controller.abort(new Error('enough'));
    await expect(batch).rejects.toThrow('enough');
  });
});

test('a worker that cannot start is an error, not a wait without end', async () => {
  const broken: Host = { ...node, startWorker: () => node.startWorker('throw new Error("no worker today");') };
  await expect(threadedKernel(box().input, { threads: 2, host: broken })).rejects.toThrow('no worker today');
});
