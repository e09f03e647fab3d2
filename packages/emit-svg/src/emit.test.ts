import { expect, test } from 'vitest';
import { stacked } from '../testing/design.ts';
import { readSvg } from '../testing/read-svg.ts';
import { emitSvg } from './emit.ts';

test('an antenna gets a drill map and a template for each sheet, and three pictures', () => {
  expect(emitSvg(stacked(2, 2)).map(({ path }) => path)).toEqual([
    ...['reflector', 'patch-driven', 'patch-middle', 'patch-outer'].map((part) => `templates/${part}-drill-map.svg`),
    ...['reflector', 'patch-driven', 'patch-middle', 'patch-outer'].map((part) => `templates/${part}-template.svg`),
    ...['antenna-top', 'antenna-exploded', 'stack-section'].map((name) => `pictures/${name}.svg`),
  ]);
});

test('two runs give the same bytes', () => {
  const [first, second] = [emitSvg(stacked(2, 2)), emitSvg(stacked(2, 2))];
  expect(second).toEqual(first);
});

test('every id is used once in its file', () => {
  for (const file of emitSvg(stacked(2, 2))) {
    const ids = [...readSvg(file).text.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
    for (const id of ids) expect(id).toMatch(/^[a-zA-Z][\w-]*$/);
  }
});

test('256 stacks stay a small set of files, made in a few seconds', () => {
  const started = performance.now();
  const files = emitSvg(stacked(16, 16));
  expect(performance.now() - started).toBeLessThan(15_000);
  expect(files.reduce((total, file) => total + file.bytes.length, 0)).toBeLessThan(3_000_000);
});
