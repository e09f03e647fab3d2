import { subscribe, unsubscribe } from 'node:diagnostics_channel';
import type { Worker } from 'node:worker_threads';
import { type Progress, type Scene, solve } from '@sheetwave/field';
import { describe, expect, it } from 'vitest';
import { mm, sceneOf } from './solve-fast.ts';

/** A gap over a plane of metal: some ten thousand cells. */
const scene: Scene = sceneOf({
  ports: [{ name: 'gap', from: [0, 0, 4 * mm], to: [0, 0, 8 * mm], resistance: 100 }],
  walls: { zLow: { kind: 'metal', at: 0 } },
});
const options = { band: { low: 4e9, high: 6e9 }, quality: 'draft', freqHz: [5e9], threads: 2 } as const;

/** Node tells of each worker that is started. */
async function workersOf(work: () => Promise<void>): Promise<Worker[]> {
  const workers: Worker[] = [];
  const note = (message: unknown) => void workers.push((message as { worker: Worker }).worker);
  subscribe('worker_threads', note);
  try {
    await work();
  } finally {
    unsubscribe('worker_threads', note);
  }
  return workers;
}

/** Resolves when a worker has ended; one that has has no number any more. */
const ended = (worker: Worker) =>
  worker.threadId < 0 ? Promise.resolve() : new Promise<void>((resolve) => void worker.once('exit', () => resolve()));

describe('a run', () => {
  it('tells how far it has come, and ends with its workers', async () => {
    const told: Progress[] = [];
    const workers = await workersOf(async () => {
      await solve(scene, { ...options, twoMeshes: true, onProgress: (one) => void told.push(one) });
    });
    expect(workers).toHaveLength(2);
    await Promise.all(workers.map(ended));
    const fractions = told.map(({ fraction }) => fraction);
    expect(fractions).toEqual([...fractions].sort((a, b) => a - b));
    expect(fractions.at(0)).toBeLessThan(0.5);
    expect(fractions.at(-1)).toBe(1);
    expect(told.every(({ step, steps, energyDb }) => step <= steps && energyDb <= 0)).toBe(true);
  });

  it('that is aborted rejects with the reason, and leaves no worker', async () => {
    const controller = new AbortController();
    let looks = 0;
    const workers = await workersOf(async () => {
      const running = solve(scene, {
        ...options,
        signal: controller.signal,
        // From the event loop, as a signal of the system comes: the run must let it in.
        onProgress: () => {
          looks += 1;
          setImmediate(() => controller.abort(new Error('enough')));
        },
      });
      await expect(running).rejects.toThrow('enough');
    });
    expect(workers).toHaveLength(1);
    await Promise.all(workers.map(ended));
    expect(looks).toBeLessThanOrEqual(2);
  });
});
