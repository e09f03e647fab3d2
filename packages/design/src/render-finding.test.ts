import { describe, expect, it } from 'vitest';
import type { Finding } from './finding.ts';
import { renderFinding } from './render-finding.ts';

const base: Finding = {
  code: 'out-of-range',
  severity: 'error',
  path: 'layer[0].length',
  value: '0 mm',
  allowed: 'a length',
  remedy: 'give more than 0.1 mm',
};

describe('renderFinding', () => {
  it.each([
    ['layer[1]', 'layer 2: '],
    ['harness.level[2].section.tube', 'harness.level 3 section.tube: '],
    ['stock.sheet.a.sizes[0][1]', 'stock.sheet.a.sizes 1 2: '],
  ])('counts from 1 in words: %s', (path, words) => {
    expect(renderFinding({ ...base, path }).startsWith(words)).toBe(true);
  });

  it('says what is allowed, or what is the matter', () => {
    expect(renderFinding(base)).toBe('layer 1 length: 0 mm is not a length; give more than 0.1 mm');
    expect(renderFinding({ ...base, allowed: 'is too short' })).toBe(
      'layer 1 length: 0 mm is too short; give more than 0.1 mm',
    );
    expect(renderFinding({ ...base, value: '' })).toBe('layer 1 length: needs a length; give more than 0.1 mm');
    expect(renderFinding({ ...base, value: '', allowed: 'has no spacer' })).toBe(
      'layer 1 length: has no spacer; give more than 0.1 mm',
    );
    expect(renderFinding({ ...base, path: '', value: '', allowed: 'too large' })).toBe(
      'too large; give more than 0.1 mm',
    );
  });

  it('puts the place before it as far as it is known', () => {
    const placed = { ...base, line: 7, column: 3 };
    expect(renderFinding(placed, { file: 'a.toml' })).toMatch(/^a\.toml:7:3: layer/);
    expect(renderFinding(placed)).toMatch(/^line 7, column 3: layer/);
    expect(renderFinding({ ...base, line: 7 }, { file: 'a.toml' })).toMatch(/^a\.toml:7: layer/);
    expect(renderFinding(base, { file: 'a.toml' })).toMatch(/^a\.toml: layer/);
  });
});
