import fc from 'fast-check';
import { parse } from 'smol-toml';
import { describe, expect, it } from 'vitest';
import { validFiles } from '../testing/files.ts';
import { editDesignText, editDesignTexts, type NewValue } from './edit-design-text.ts';
import { newDesignText } from './new-design.ts';
import { readDesign } from './read-design.ts';
import { renderFinding } from './render-finding.ts';

const commented = `# a panel
name = "a # \\"b\\"" # not # a comment
"odd key" = 'c'   # tail
numbers = [ 1, 2 , # two
  3 ]
size = { width = "150 mm",  height = "6 in" }  # both
when = 2026-05-17   # a date
[[layer]]            # first
length =   "18.4 mm"    # the resonant dimension\r
[[layer]]
length="0.5 in"
notes = """
length = "not this"
"""
`;

function edited(text: string, path: string, value: NewValue): string {
  const edit = editDesignText(text, path, value);
  if (!edit.ok) throw new Error(renderFinding(edit.finding));
  return edit.text;
}

describe('editDesignText', () => {
  it.each<[path: string, value: NewValue, found: string, put: string]>([
    ['name', 'x "y"', '"a # \\"b\\"" #', '"x \\"y\\"" #'],
    ['"odd key"', 2.5, "'c'   #", '2.5   #'],
    ['numbers[1]', -7, '2 , #', '-7 , #'],
    ['numbers[2]', true, '3 ]', 'true ]'],
    ['size.height', '160 mm', '"6 in" }  #', '"160 mm" }  #'],
    ['when', 'later', '2026-05-17   #', '"later"   #'],
    ['layer[0].length', '18.2 mm', '"18.4 mm"    #', '"18.2 mm"    #'],
    ['layer[1].length', '12.6 mm', '"0.5 in"\n', '"12.6 mm"\n'],
    ['layer[1].notes', '', '"""\nlength = "not this"\n"""', '""'],
  ])('changes %s to %j and nothing else', (path, value, found, put) => {
    expect(commented.split(found)).toHaveLength(2);
    expect(edited(commented, path, value)).toBe(commented.replace(found, () => put));
  });

  it('refuses what is not written, tables and lists, and says what to do', () => {
    const refusal = (path: string) => {
      const edit = editDesignText(commented, path, '1 mm');
      return edit.ok ? 'done' : renderFinding(edit.finding);
    };
    expect(refusal('layer[2].length')).toBe(
      'layer 3 length: is not written in the design; write it there first, as "1 mm"',
    );
    expect(refusal('size')).toMatch(/^size: is a list or a table, not a single value; /);
    expect(refusal('numbers')).toMatch(/^numbers: is a list or a table/);
    expect(refusal('layer')).toMatch(/^layer: is not written/);
  });

  it('gives the fault of a text that is no TOML', () => {
    const edit = editDesignText('a = \n', 'a', 1);
    expect(edit).toMatchObject({ ok: false, finding: { code: 'not-toml', line: 1 } });
  });

  it('throws for paths that are none and numbers that are not finite: faults of a program', () => {
    for (const path of ['', '.', 'a..b', 'a[', 'a[x]', 'a b']) {
      expect(() => editDesignText(commented, path, 1)).toThrow(RangeError);
    }
    expect(() => editDesignText(commented, 'name', Number.NaN)).toThrow(RangeError);
  });

  it('reads as the design with that size', () => {
    const text = newDesignText();
    const { design } = readDesign(edited(text, 'layer[1].length', '49.3 mm'));
    expect(design?.layers[1]?.shape).toMatchObject({ lengthMm: 49.3 });
    expect(design?.layers[0]?.shape).toMatchObject({ lengthMm: 53 });
  });
});

describe('editDesignTexts', () => {
  it('makes all changes or none', () => {
    const both = editDesignTexts(commented, { 'layer[0].length': '1 mm', 'layer[1].length': '2 mm' });
    expect(both).toMatchObject({ ok: true });
    expect(editDesignTexts(commented, { 'layer[0].length': '1 mm', gone: '2 mm' })).toMatchObject({
      ok: false,
      finding: { path: 'gone' },
    });
  });
});

interface Leaf {
  readonly path: string;
  readonly keys: readonly (string | number)[];
}

/** The paths of all single values of parsed TOML, by a walk of its own. */
function leaves(value: unknown, keys: readonly (string | number)[] = []): Leaf[] {
  if (Array.isArray(value)) return value.flatMap((item, index) => leaves(item, [...keys, index]));
  if (typeof value === 'object' && value !== null && Object.getPrototypeOf(value) !== Date.prototype) {
    if (!('toISOString' in value)) {
      return Object.entries(value).flatMap(([key, child]) => leaves(child, [...keys, key]));
    }
  }
  const path = keys.reduce<string>((text, key) => {
    if (typeof key === 'number') return `${text}[${key}]`;
    const word = /^[A-Za-z0-9_-]+$/.test(key) ? key : JSON.stringify(key);
    return text === '' ? word : `${text}.${word}`;
  }, '');
  return [{ path, keys }];
}

function withValue(value: unknown, keys: readonly (string | number)[], put: NewValue): unknown {
  const [key, ...deeper] = keys;
  if (key === undefined) return put;
  const copy = Array.isArray(value) ? [...value] : { ...(value as object) };
  const table = copy as Record<string | number, unknown>;
  table[key] = withValue(table[key], deeper, put);
  return copy;
}

const comments = (text: string) => text.match(/(?<=\s)# [^"'\n]*$/gm) ?? [];

it('changes any value of any design to any text or number, and what is read differs by that alone', () => {
  const texts = [...Object.values(validFiles), newDesignText(), commented];
  const put = fc.oneof(
    fc.string({ unit: 'grapheme', maxLength: 12 }),
    fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 }),
    fc.integer(),
    fc.boolean(),
  );
  fc.assert(
    fc.property(fc.constantFrom(...texts), fc.nat(), put, (text, pick, value) => {
      const before = parse(text);
      const all = leaves(before);
      const leaf = all[pick % all.length];
      if (leaf === undefined) throw new Error('a design has values');
      const after = edited(text, leaf.path, value);
      // toEqual tells 0 from -0, which TOML's reader and a program need not.
      const wanted = value === 0 ? 0 : value;
      expect(parse(after)).toEqual(withValue(before, leaf.keys, wanted));
      if (!text.includes('"""')) expect(comments(after)).toEqual(comments(text));
    }),
    { seed: 31, numRuns: 600 },
  );
});
