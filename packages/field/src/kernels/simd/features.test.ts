import { expect, test } from 'vitest';
import { FieldError } from '../../field-error.ts';
import { requireFeatures } from './features.ts';

const ALL = { simd: true, threads: true, relaxedSimd: true };
const ONE = { threads: 1, fusedMultiplyAdd: false };

test('a missing feature is named, with the way out', () => {
  expect(() => requireFeatures({ ...ALL, simd: false }, ONE)).toThrow(/SIMD.*use the plain kernel/);
  expect(() => requireFeatures({ ...ALL, threads: false }, { ...ONE, threads: 2 })).toThrow(/isolated.*use one thread/);
  expect(() => requireFeatures({ ...ALL, relaxedSimd: false }, { ...ONE, fusedMultiplyAdd: true })).toThrow(
    /leave it off/,
  );
});

test('it is an error of the solver, for programs too', () => {
  const refuse = () => requireFeatures({ ...ALL, threads: false }, { ...ONE, threads: 2 });
  expect(refuse).toThrow(FieldError);
  expect(refuse).toThrow(expect.objectContaining({ problems: [expect.objectContaining({ code: 'missing-feature' })] }));
});

test('a feature that is not wanted may be missing', () => {
  expect(() => requireFeatures({ simd: true, threads: false, relaxedSimd: false }, ONE)).not.toThrow();
});
