import { parse } from 'smol-toml';
import { expect, it } from 'vitest';
import { validFiles } from '../testing/files.ts';
import { formatFrequency, formatLength } from './quantity.ts';
import { defineDesign, readDesign } from './read-design.ts';
import type { DesignFile } from './schema/design-file.ts';
import { writeDesign } from './write-design.ts';

it.each(Object.entries(validFiles))('writes %s so that it reads as the same design', (_, text) => {
  const file = parse(text.replace(/^date = (\S+)$/m, 'date = "$1"')) as unknown as DesignFile;
  const written = writeDesign(file);
  expect(readDesign(written)).toEqual(readDesign(text));
  expect(readDesign(written)).toEqual(defineDesign(file));
  expect(written.endsWith('\n')).toBe(true);
});

it('takes quantities made from numbers', () => {
  const file: DesignFile = {
    format: 1,
    name: 'From numbers',
    band: { low: formatFrequency(2.4e9), high: formatFrequency(2.4835e9) },
    reflector: { sheet: 'brass-1.0' },
    layer: [{ shape: 'circle', diameter: formatLength(58.123456), sheet: 'brass-0.5', spacer: 'm3-mf-6-brass' }],
    feed: { from_edge: formatLength(14) },
    coax: { stock: 'semi-rigid-141' },
  };
  expect(readDesign(writeDesign(file)).design?.layers[0]?.shape).toEqual({ kind: 'circle', diameterMm: 58.123456 });
});
