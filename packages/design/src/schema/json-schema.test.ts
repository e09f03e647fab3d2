import { Ajv2020 } from 'ajv/dist/2020.js';
import { parse } from 'smol-toml';
import { describe, expect, it } from 'vitest';
import { singleSheet, validFiles } from '../../testing/files.ts';
import { newDesignText } from '../new-design.ts';
import { designJsonSchema, type JsonSchema } from './json-schema.ts';

/** TOML as an editor's checker sees it: dates are text. */
function asJson(text: string): unknown {
  return JSON.parse(JSON.stringify(parse(text)));
}

const validate = new Ajv2020({ strict: false, validateFormats: false, allErrors: true }).compile(designJsonSchema());

describe('the JSON Schema of a design file', () => {
  it.each([...Object.entries(validFiles), ['new', newDesignText()]])('accepts the valid file %s', (_, text) => {
    validate(asJson(text));
    expect(validate.errors ?? []).toEqual([]);
  });

  it.each([
    ['a bare number', '"53 mm"', '53'],
    ['a missing unit', '"53 mm"', '"53"'],
    ['a wrong unit', '"53 mm"', '"53 GHz"'],
    ['a misspelt field', 'length =', 'lenght ='],
    ['a missing field', 'length = "53 mm"\n', ''],
    ['an unknown shape', '"rectangle"', '"square"'],
    ['another format', 'format = 1', 'format = 2'],
    ['a name with a slash', 'Orchard mast 2.4', 'a/b'],
    ['no layer', '[[layer]]', '[other]'],
  ])('refuses %s', (_, found, put) => {
    expect(singleSheet).toContain(found);
    expect(validate(asJson(singleSheet.replace(found, put)))).toBe(false);
  });

  it('has a title, and a description at every field', () => {
    const schema = designJsonSchema();
    expect(schema.title).toBe('sheetwave design');
    const bare: string[] = [];
    const visit = (node: JsonSchema, path: string): void => {
      for (const [key, child] of Object.entries(node.properties ?? {})) {
        if (!child.description) bare.push(`${path}.${key}`);
        visit(child, `${path}.${key}`);
      }
      for (const child of [...(node.anyOf ?? []), ...(node.oneOf ?? [])]) visit(child, path);
      if (node.items) visit(node.items, path);
      if (typeof node.additionalProperties === 'object') visit(node.additionalProperties, path);
    };
    visit(schema, '');
    expect(bare).toEqual([]);
  });
});
