import { expect, test } from 'vitest';
import { progressWatch } from './progress.ts';

const limits = { silent: 1000, stopDb: -50, usual: 4000, most: 20_000 };

test('of a steady decay the end is told from two looks', () => {
  const watch = progressWatch(limits);
  // From step 1000 on, 10 dB in every 500 steps: -50 dB at step 3500.
  watch(1200, -4);
  expect(watch(1300, -6).steps).toBe(3500);
  expect(watch(1400, -8)).toMatchObject({ step: 1400, steps: 3500, energyDb: -8 });
});

test('the part that is done never falls, and is not 1 before the end', () => {
  const watch = progressWatch(limits);
  const energies = [0, 0, -1, -10, -20, -21, -22, -23, -24, -24.5, -60];
  const fractions = energies.map((energyDb, n) => watch(500 * (n + 1), energyDb).fraction);
  expect(fractions).toEqual([...fractions].sort((a, b) => a - b));
  expect(fractions.at(-1)).toBe(0.99);
});

test('fields that do not fall are expected to take the usual time, or all that is allowed', () => {
  const watch = progressWatch(limits);
  expect(watch(1500, 0).steps).toBe(4000);
  expect(watch(5000, 0).steps).toBe(5000);
  expect(watch(30_000, 0).steps).toBe(20_000);
});
