import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { caseOf } from './fuzz-case.ts';

// The first seconds of `npm run fuzz`, always with the same seeds: every input gives a sound pack or clear findings.

const ROOT = join(import.meta.dirname, '..', '..');
const FUZZ = join(ROOT, 'scripts', 'fuzz', 'fuzz.mjs');

describe('random designs and drawings', () => {
  it('give packs whose files can be read, or findings', async () => {
    const { stdout } = await promisify(execFile)(process.execPath, [FUZZ, '--seed', '5', '--count', '60'], {
      cwd: ROOT,
    });
    const [, packs, refused, failures] = /(\d+) packs, (\d+) refused with findings, (\d+) failures/.exec(stdout) ?? [];
    expect(Number(failures), stdout).toBe(0);
    expect(Number(packs)).toBeGreaterThan(5);
    expect(Number(refused)).toBeGreaterThan(20);
  });

  it('are the same for the same seed, and of every kind', () => {
    const cases = Array.from({ length: 60 }, (_, index) => caseOf(5_000_000 + index));
    expect(cases.map(({ seed }) => caseOf(seed))).toEqual(cases);
    expect(new Set(cases.map(({ kind }) => kind)).size).toBe(4);
    expect(new Set(cases.map(({ designText }) => designText)).size).toBe(60);
  });
});
