import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { figureSvg } from '@sheetwave/emit-svg';
import { describe, expect, test } from 'vitest';
import { compareDrawing } from './compare-drawing.ts';
import { drawExample, ROOT } from './draw-example.ts';
import list from './drawings.json' with { type: 'json' };
import { samplePlots } from './sample-plots.ts';

/** One line of drawings.json. */
interface GoldenDrawing {
  /** Folder under examples/, or `plots` for a diagram of sample data. */
  readonly example: string;
  /** Path in its build pack, or the name of the diagram. */
  readonly drawing: string;
  /** Where the golden one is kept, from the root: under test/golden, or in the example where a document shows it. */
  readonly kept: string;
}

const drawings: readonly GoldenDrawing[] = list;
const examples = [...new Set(drawings.map((one) => one.example))];
const folders = { root: ROOT, output: join(ROOT, 'test', 'output') };

function drawPlots(): ReadonlyMap<string, string> {
  const text = new TextDecoder();
  return new Map(Object.entries(samplePlots).map(([name, figure]) => [name, text.decode(figureSvg(figure))]));
}

describe.each(examples)('%s', (example) => {
  test('draws what it drew when a person last looked', async () => {
    const drawn = example === 'plots' ? drawPlots() : await drawExample(example);
    const changed = drawings
      .filter((one) => one.example === example)
      .flatMap(({ drawing, kept }) => {
        const svg = drawn.get(drawing);
        if (svg === undefined) throw new Error(`no ${drawing} in the pack; it has ${[...drawn.keys()].join(', ')}`);
        return compareDrawing(kept, svg, folders) ?? [];
      });
    expect(changed, 'changed drawings; look at them with: npm run gallery').toEqual([]);
  });
});

test('the list names every drawing that is kept, and only those', () => {
  const kept = ['examples', 'test/golden'].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
      .filter((path) => path.endsWith('.svg'))
      .map((path) => `${folder}/${path.replaceAll('\\', '/')}`),
  );
  expect(kept.sort()).toEqual(drawings.map((one) => one.kept).sort());
});
