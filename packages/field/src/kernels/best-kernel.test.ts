import { expect, test } from 'vitest';
import { bestKernel } from './best-kernel.ts';
import { plainKernel } from './plain.ts';

const ALL = { simd: true, threads: true, relaxedSimd: false };

test('a host without SIMD gets the plain kernel, and is told why', () => {
  const { kernel, allocate, reason } = bestKernel({ features: { ...ALL, simd: false } });
  expect(kernel).toBe(plainKernel);
  expect(allocate).toBeUndefined();
  expect(reason).toMatch(/SIMD/);
});

test('a host that shares no memory gets one thread, and is told why', () => {
  const { allocate, reason } = bestKernel({ threads: 4, features: { ...ALL, threads: false } });
  expect(reason).toMatch(/one thread/);
  expect(allocate?.(64)).toBeInstanceOf(ArrayBuffer);
});

test('a host with both gets shared memory and no excuse', () => {
  const { allocate, reason } = bestKernel({ threads: 2, features: ALL });
  expect(reason).toBeUndefined();
  expect(allocate?.(64)).not.toBeInstanceOf(ArrayBuffer);
});
