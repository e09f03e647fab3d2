import { parse } from 'smol-toml';
import { expect, it } from 'vitest';
import { validFiles } from '../testing/files.ts';
import { readDesign } from './read-design.ts';
import { nextRevision, reviseDesignText } from './revise-design-text.ts';

it.each([
  ['A', 'B'],
  ['Z', 'AA'],
  ['AZ', 'BA'],
  ['ZZ', 'AAA'],
  ['9', '10'],
  ['B2', 'B3'],
  ['v0.09', 'v0.10'],
  ['first', 'first-2'],
])('the revision after %s is %s', (now, next) => {
  expect(nextRevision(now)).toBe(next);
});

it.each(Object.entries(validFiles))('revises %s and nothing else, whether it had a revision or not', (_, text) => {
  for (const given of [text, text.replaceAll('\n', '\r\n')]) {
    const edit = reviseDesignText(given, 'C');
    if (!edit.ok) throw new Error(edit.finding.code);
    expect(readDesign(edit.text).design?.revision).toBe('C');
    expect(parse(edit.text)).toEqual({ ...parse(given), revision: 'C' });
    const added = edit.text.split(/\r?\n/).length - given.split(/\r?\n/).length;
    expect(added).toBe(given.includes('revision =') ? 0 : 1);
  }
});

it('refuses what is no design', () => {
  expect(reviseDesignText('a = ', 'B').ok).toBe(false);
  expect(reviseDesignText('a = 1\n', 'B').ok).toBe(false);
});
