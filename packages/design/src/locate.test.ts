import { parse } from 'smol-toml';
import { describe, expect, it } from 'vitest';
import { rodArray } from '../testing/files.ts';
import { locateIn, placeFindings } from './locate.ts';
import type { KeyPath } from './path.ts';

const text = `# head [not.a.table]
title = "a # b" # note
"quoted key" = 'c'
dotted.deep.key = 1
notes = """
[layer]
x = 1
\\""" still inside
"""
raw = '''
y = 2 ''''
list = [ "]", # ]
  { size = { width = "1", height = "2" } },
]
[band]
low = "5 GHz"   
  high = inf
[[layer]]
name = "a"
[[layer]]
name = "b"
spacer = { printed = "6 mm", "outer" = "8 mm" }
[layer.inner]
z = 3
[harness]
[[harness.level]]
stem = 1
[[harness.level]]
stem = 2\r
[stock.sheet."my brass"]
thickness = 2026-05-17T10:00:00Z
`;

describe('locateIn', () => {
  const locate = locateIn(text);

  it('is tried on text that is TOML', () => {
    expect(() => parse(text)).not.toThrow();
  });

  it.each<[KeyPath, number, number]>([
    [['title'], 2, 1],
    [['quoted key'], 3, 1],
    [['dotted', 'deep', 'key'], 4, 1],
    [['dotted'], 4, 1],
    [['notes'], 5, 1],
    [['raw'], 10, 1],
    [['list'], 12, 1],
    [['list', 0], 12, 10],
    [['list', 1], 13, 3],
    [['list', 1, 'size', 'height'], 13, 27],
    [['band'], 15, 1],
    [['band', 'high'], 17, 3],
    [['layer', 0], 18, 1],
    [['layer', 0, 'name'], 19, 1],
    [['layer', 1, 'name'], 21, 1],
    [['layer', 1, 'spacer', 'outer'], 22, 30],
    [['layer', 1, 'inner', 'z'], 24, 1],
    [['harness', 'level', 1, 'stem'], 29, 1],
    [['stock', 'sheet', 'my brass', 'thickness'], 31, 1],
  ])('finds %j at line %i, column %i', (path, line, column) => {
    expect(locate(path)).toEqual({ line, column });
  });

  it('gives the nearest table for a key that is not there', () => {
    expect(locate(['layer', 1, 'length'])).toEqual({ line: 20, column: 1 });
    expect(locate(['band', 'middle'])).toEqual({ line: 15, column: 1 });
  });

  it('gives nothing for the whole file', () => {
    expect(locate([])).toBeUndefined();
    expect(locate(['absent'])).toBeUndefined();
  });

  /** Every path of data, by recursion. */
  function paths(value: unknown, path: KeyPath): KeyPath[] {
    if (typeof value !== 'object' || value === null || value instanceof Date) return [path];
    const entries: [string | number, unknown][] = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
    return [path, ...entries.flatMap(([key, child]) => paths(child, [...path, key]))];
  }

  it('finds every key of a design file on a line that holds it', () => {
    const lines = rodArray.split('\n');
    const own = locateIn(rodArray);
    const all = paths(parse(rodArray), []).filter((path) => path.length > 0);
    expect(all.length).toBeGreaterThan(70);
    for (const path of all) {
      const key = path.filter((step) => typeof step === 'string').at(-1);
      expect(lines[(own(path)?.line ?? 0) - 1], String(path)).toContain(String(key));
    }
  });
});

describe('placeFindings', () => {
  const finding = { code: 'x', severity: 'error', value: '', allowed: 'is wrong', remedy: 'mend it' } as const;
  const place = (path: string) => placeFindings([{ ...finding, path }], text)[0];

  it('adds the place of the field, or of the table around it', () => {
    expect(place('layer[1].spacer')).toEqual({ ...finding, path: 'layer[1].spacer', line: 22, column: 1 });
    expect(place('layer[0].length.deeper')).toMatchObject({ line: 18 });
    expect(place('stock.sheet."my brass".kerf')).toMatchObject({ line: 30 });
    expect(place('patch-driven')).toEqual({ ...finding, path: 'patch-driven' });
    expect(place('')).toEqual({ ...finding, path: '' });
  });

  it('keeps a place that is known', () => {
    const placed = { ...finding, path: 'band', line: 99, column: 2 };
    expect(placeFindings([placed, { ...finding, path: 'band' }], text)).toMatchObject([placed, { line: 15 }]);
  });
});
