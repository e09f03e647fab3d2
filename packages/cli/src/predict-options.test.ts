import { describe, expect, test } from 'vitest';
import { predictOptions } from './predict-options.ts';

const read = (values: Readonly<Record<string, string>>, ...switches: string[]) =>
  predictOptions(new Set(switches), new Map(Object.entries(values)));

test('without options: as built, normal, 201 points, cached', () => {
  expect(read({})).toEqual({
    request: { quality: 'normal', feed: 'as-built', twoMeshes: false, points: 201 },
    memoryBytes: undefined,
    threads: undefined,
    useCache: true,
    showProgress: false,
  });
});

// Decimal and binary multiples: IEC 80000-13 (memory).
test.each([
  ['2 GB', 2_000_000_000],
  ['2GiB', 2_147_483_648],
  ['1.5 MB', 1_500_000],
  ['512 MiB', 536_870_912],
])('%s of memory', (memory, bytes) => {
  expect(read({ memory }).memoryBytes).toBe(bytes);
});

describe('refuses', () => {
  test.each([
    [{ memory: '2' }, '"2 GB"'],
    [{ memory: '0 GB' }, '"2 GB"'],
    [{ memory: '-1 GB' }, '"2 GB"'],
    [{ memory: '1e9 GB' }, '"2 GB"'],
    [{ points: '2.5' }, 'whole number from 2 to 20001'],
    [{ points: '20002' }, 'whole number from 2 to 20001'],
    [{ threads: '1000' }, 'whole number from 1 to 256'],
    [{ quality: 'Draft' }, 'draft, normal or fine'],
    [{ feed: '\u001b[31m' }, '\\u{1b}'],
  ])('%j', (values, words) => {
    expect(() => read(values as Record<string, string>)).toThrow(words);
  });
});
