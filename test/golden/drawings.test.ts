import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { compareDrawing, goldenName } from './compare-drawing.ts';
import { drawExample } from './draw-example.ts';
import list from './drawings.json' with { type: 'json' };

// drawings.json: [{ "example": folder under examples/, "drawings": [paths in its build pack] }]
const examples: readonly { readonly example: string; readonly drawings: readonly string[] }[] = list;

const folders = {
  golden: fileURLToPath(new URL('.', import.meta.url)),
  output: fileURLToPath(new URL('../output/', import.meta.url)),
};

describe.each(examples)('$example', ({ example, drawings }) => {
  test('draws what it drew when a person last looked', () => {
    const drawn = drawExample(example);
    const changed = drawings.flatMap((path) => {
      const svg = drawn.get(path);
      if (svg === undefined)
        throw new Error(`${example}: no ${path} in the pack; it has ${[...drawn.keys()].join(', ')}`);
      return compareDrawing(goldenName(example, path), svg, folders) ?? [];
    });
    expect(changed, 'changed drawings; look at them with: npm run gallery').toEqual([]);
  });
});

test('every golden drawing is one of the list, and every drawing of the list has its golden one', () => {
  const kept = readdirSync(folders.golden, { recursive: true, encoding: 'utf8' }).filter((path) =>
    path.endsWith('.svg'),
  );
  const listed = examples.flatMap(({ example, drawings }) =>
    drawings.map((path) => `${goldenName(example, path)}.svg`),
  );
  expect(kept.map((path) => path.replaceAll('\\', '/')).sort()).toEqual(listed.sort());
});
