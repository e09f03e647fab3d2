import { describe, expect, test } from 'vitest';
import { projectFiles, readText } from './workspace.ts';

// Each pattern is written so that it does not find itself.
// The home of the demo scenario's boathouse stands for any person's home in examples and tests.
const EVERYWHERE: Readonly<Record<string, RegExp>> = {
  'a package registry': /registry\.[a-z]/i,
  'a path of one machine': /(?<![\w.~$)}])\/(?:home|Users|root|work|mnt|tmp)\/(?!heron\b)[\w.]/,
  'a path of one Windows machine': /\b[A-Z]:\\Users\\/,
};
const IN_PACKAGES: Readonly<Record<string, RegExp>> = {
  'unfinished work': /\b(?:TODO|FIXME|XXX|HACK|WIP)\b|\bplaceholder\b|not (?:yet )?implemented/i,
  'a check switched off': /@ts-(?:ignore|nocheck|expect-error)|biome-ignore-all/,
  'a forgotten stop': /\bdebugger;/,
};
const IN_TESTS: Readonly<Record<string, RegExp>> = {
  'a skipped or focused test':
    /\b(?:describe|test|it)\.(?:only|skip|todo|fails)\b(?!If)|\b(?:fit|xit|fdescribe|xdescribe)\(/,
};

const TEXT = /\.(?:ts|mjs|json|md|toml|svg|html|css|txt|csv)$|^[^.]*$|^\.[a-z]+(?:\/run)?$/;
const files = projectFiles().filter((path) => TEXT.test(path));

function findings(paths: readonly string[], patterns: Readonly<Record<string, RegExp>>): string[] {
  return paths.flatMap((path) =>
    readText(path)
      .split('\n')
      .flatMap((line, index) =>
        Object.entries(patterns)
          .filter(([, pattern]) => pattern.test(line))
          .map(([what]) => `${path}:${index + 1}: ${what}: ${line.trim().slice(0, 100)}`),
      ),
  );
}

describe('words that stay out', () => {
  test('the patterns find what they are for', () => {
    const finds = (patterns: Readonly<Record<string, RegExp>>, text: string) =>
      Object.values(patterns).some((pattern) => pattern.test(text));
    const slash = '/';
    for (const text of [`'${slash}home/ann/x'`, ` ${slash}tmp/x`, `https:${slash}${slash}registry${'.'}example.org`]) {
      expect(finds(EVERYWHERE, text), text).toBe(true);
    }
    for (const text of ['packages/home/x', '../tmp/x', 'dist/tmp/x', `${slash}home/heron/x`, 'node_modules/root/x']) {
      expect(finds(EVERYWHERE, text), text).toBe(false);
    }
    for (const call of ['only', 'skip', 'todo']) expect(finds(IN_TESTS, `test.${call}('x')`), call).toBe(true);
    expect(finds(IN_TESTS, 'describe.skipIf(true)')).toBe(false);
    expect(finds(IN_PACKAGES, `// ${'TO'}${'DO'} later`)).toBe(true);
  });

  test('no registry and no path of one machine, anywhere', () => {
    expect(files.length).toBeGreaterThan(40);
    expect(findings(files, EVERYWHERE)).toEqual([]);
  });

  test('nothing unfinished in the packages', () => {
    expect(
      findings(
        files.filter((path) => path.startsWith('packages/')),
        IN_PACKAGES,
      ),
    ).toEqual([]);
  });

  test('no test is skipped or focused', () => {
    expect(
      findings(
        files.filter((path) => path.endsWith('.test.ts')),
        IN_TESTS,
      ),
    ).toEqual([]);
  });

  test('no source file has grown above 400 lines', () => {
    const sources = files.filter((path) => /^packages\/.*\/src\/.*(?<!\.test)\.ts$/.test(path));
    expect(sources.filter((path) => readText(path).split('\n').length > 400)).toEqual([]);
  });
});
