import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exampleText, newFolder, sheetwave, snapshot } from './command.ts';

// Designs that cannot be made: each is refused with its place in words, and nothing is written.

const GOOD = exampleText('laser-single-2g4');
const ARRAY = exampleText('brass-2x2-5g8');

/** The good design with one passage changed. */
function changed(from: string, to: string, text = GOOD): string {
  if (!text.includes(from)) throw new Error(`the example no longer has ${JSON.stringify(from)}`);
  return text.replace(from, to);
}

const LENGTH = 'length = "60 mm"';

const CASES: readonly (readonly [string, string | Uint8Array, RegExp])[] = [
  ['an unknown key', changed('revision =', 'hieght = "2 mm"\nrevision ='), /hieght/],
  ['a misspelt key in a table', changed(LENGTH, 'lenght = "60 mm"'), /lenght/],
  ['a missing unit', changed(LENGTH, 'length = "47"'), /layer 1 length.*unit/],
  ['a bare number', changed(LENGTH, 'length = 47'), /layer 1 length/],
  ['an unknown unit', changed(LENGTH, 'length = "47 furlong"'), /layer 1 length.*47 furlong/],
  ['a unit of another kind', changed(LENGTH, 'length = "47 GHz"'), /layer 1 length/],
  ['zero', changed(LENGTH, 'length = "0 mm"'), /layer 1 length.*0 mm/],
  ['a negative length', changed(LENGTH, 'length = "-60 mm"'), /layer 1 length.*-60 mm/],
  ['NaN', changed(LENGTH, 'length = nan'), /layer 1 length/],
  ['NaN as text', changed(LENGTH, 'length = "nan mm"'), /layer 1 length/],
  ['an infinite length', changed(LENGTH, 'length = inf'), /layer 1 length/],
  ['a length beyond all numbers', changed(LENGTH, 'length = "1e999 mm"'), /layer 1 length/],
  ['an enormous array', changed('rows = 1', 'rows = 1000000'), /lattice\.rows/],
  ['a fractional array', changed('rows = 1', 'rows = 1.5'), /lattice\.rows/],
  ['an array of none', changed('rows = 1', 'rows = 0'), /lattice\.rows/],
  [
    'elements closer than their harness allows',
    changed('row_pitch = "40 mm"', 'row_pitch = "15 mm"', ARRAY),
    /harness\.level 1 section\.length: 15 mm is longer than its arm allows, 6\.5 mm/,
  ],
  ['a name with a path in it', changed('name = "driven"', 'name = "../../driven"'), /layer 1 name/],
  ['a name with a control character', changed('name = "driven"', 'name = "dri\\u001bven"'), /layer 1 name/],
  ['a name that the system reserves', changed('name = "driven"', 'name = "con"'), /layer 1 name/],
  ['two layers of one name', changed('name = "parasitic"', 'name = "driven"'), /name/],
  ['stock that does not exist', changed('sheet = "brass-1.0"', 'sheet = "unobtainium-1.0"'), /unobtainium-1\.0/],
  ['a stack that cannot be screwed together', changed('m3-mf-12-brass', 'm2-mf-12-brass'), /m2-mf-12-brass|layer 2/],
  ['a feed point outside the patch', changed('from_edge = "8.7 mm"', 'from_edge = "80 mm"'), /from_edge/],
  ['a band upside down', changed('low = "2.400 GHz"', 'low = "2.9 GHz"'), /band/],
  [
    'a reflector too narrow for its holes',
    changed('width = "190 mm"', 'width = "20 mm"'),
    /part reflector: mounting hole/,
  ],
  [
    'a reflector larger than any sheet it is sold in',
    changed('width = "190 mm"', 'width = "2100 mm"'),
    /part reflector: 2100 mm x 190 mm.*at most 990 mm x 1990 mm/,
  ],
  ['a format of the future', changed('format = 1', 'format = 99'), /format/],
  [
    'text that is not TOML, with line and column',
    changed('revision = "A"', 'revision = "A'),
    /design\.toml:5:\d+: not a TOML document/,
  ],
  ['a table given twice', `${GOOD}\n[band]\nlow = "1 GHz"\n`, /not a TOML document/],
  ['nothing at all', '', /format/],
  ['a list of nothing but blank lines', '\n\n\n', /format/],
  ['tables nested without end', `a = ${'['.repeat(20000)}`, /TOML|nested/],
  ['a key named as a part of the language', `${GOOD}\n[__proto__]\nx = 1\n`, /__proto__: is not a field/],
];

/** Those where one mistake has several consequences, each with its own message; every other is told in one. */
const SEVERAL = new Set([
  'two layers of one name',
  'a misspelt key in a table',
  'nothing at all',
  'a list of nothing but blank lines',
  'a reflector too narrow for its holes',
]);

describe('a design that cannot be made', () => {
  it.each(CASES)('%s', async (name, text, words) => {
    const cwd = newFolder();
    writeFileSync(join(cwd, 'design.toml'), text);
    const before = snapshot(cwd);
    const { code, stdout, stderr } = await sheetwave(['make', 'design.toml', '--out', 'p'], { cwd });
    expect([code, stdout, snapshot(cwd)], stderr).toEqual([1, '', before]);
    expect(stderr).toMatch(words);
    expect(stderr).toMatch(/Nothing was written/);
    const errors = stderr.match(/^error: /gm)?.length ?? 0;
    if (SEVERAL.has(name)) expect(errors, stderr).toBeGreaterThan(1);
    else expect(errors, stderr).toBe(1);
    expect(stderr, 'no trace of the inside').not.toMatch(/^\s+at /m);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that none gets through is the point
    expect(stderr).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f]/);
  });
});

describe('what is not a design file at all ends with 3 and one message', () => {
  it.each<[string, string | Uint8Array, RegExp]>([
    ['a binary file', Uint8Array.from({ length: 4000 }, (_, i) => (i * 37) % 256), /not a text file/],
    ['text with a zero byte', 'format = 1\0', /not a text file/],
    ['a huge file', new Uint8Array(5_000_000).fill(35), /larger than 1 MB/],
  ])('%s', async (_name, input, words) => {
    const cwd = newFolder();
    const { code, stdout, stderr } = await sheetwave(['make', '-', '--out', 'p'], { cwd, input });
    expect([code, stdout, snapshot(cwd).size]).toEqual([3, '', 0]);
    expect(stderr).toMatch(words);
    expect(stderr.trim().split('\n').length).toBe(1);
  });
});
