import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planLayout } from '../../layout.ts';
import { chooseSchedule } from './schedule.ts';

const MIB = 2 ** 20;
const none = { low: 0, high: 0 };

const layoutOf = (nx: number, ny: number, nz: number, maxBatch = 64) =>
  planLayout({
    nx,
    ny,
    nz,
    layers: { x: none, y: none, z: none },
    poolElements: 0,
    waveCount: 0,
    probeCount: 0,
    operationCount: 0,
    maxBatch,
  });

// 6 fields of 4 bytes: 64 x 40 x 30 elements are 1.76 MiB, 160 x 160 x 160 are 94 MiB.
test('fields that fit the cache stay in slabs, others are run in tiles', () => {
  const small = layoutOf(63, 40, 30);
  expect(chooseSchedule({ layout: small, threads: 1, cacheBytes: 2 * MIB })).toEqual({ kind: 'fused' });
  expect(chooseSchedule({ layout: small, threads: 1, cacheBytes: MIB }).kind).toBe('blocked');
  expect(chooseSchedule({ layout: small, threads: 2, cacheBytes: MIB })).toEqual({ kind: 'fused' });
  expect(chooseSchedule({ layout: layoutOf(159, 160, 160), threads: 2, cacheBytes: 2 * MIB }).kind).toBe('blocked');
});

test('tiles fit the cache, are as many for each thread, and take no more steps than a batch', () => {
  const size = fc.integer({ min: 80, max: 400 });
  const threadCount = fc.integer({ min: 1, max: 8 });
  fc.assert(
    fc.property(size, size, size, threadCount, fc.integer({ min: 1, max: 64 }), (nx, ny, nz, threads, maxBatch) => {
      const layout = layoutOf(nx, ny, nz, maxBatch);
      const cacheBytes = 2 * MIB;
      const schedule = chooseSchedule({ layout, threads, cacheBytes });
      if (schedule.kind !== 'blocked') return;
      const { rows, steps } = schedule;
      expect(steps).toBeLessThanOrEqual(maxBatch);
      expect(rows).toBeGreaterThanOrEqual(1);
      const set = (steps + 1) * (rows + steps) * layout.shape.sx * 24;
      if (rows > 8) expect(set).toBeLessThanOrEqual(0.6 * cacheBytes);
    }),
  );
});
