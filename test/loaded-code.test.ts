import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, inject, test } from 'vitest';

// Each of the two test projects must load the code that it is named for. The project that tests the built output must
// also leave the loading to Node: a test runner that transforms the files would forgive imports that Node refuses.

type Loaded = Readonly<Record<string, unknown>>;

declare module 'vitest' {
  interface ProvidedContext {
    testedCode: 'source' | 'built';
  }
}

const project = inject('testedCode');

/** Node's own `import`: the runner leaves a module in a data URL alone, so what it imports is Node's as well. */
const { importByNode }: { importByNode: (url: string) => Promise<Loaded> } = await import(
  'data:text/javascript,export const importByNode = (url) => import(url);' as string
);

describe(`the project that tests the ${project} code`, () => {
  let here: Loaded;
  let byNode: Loaded;

  beforeAll(async () => {
    here = await import('@sheetwave/geometry');
    byNode = await importByNode(new URL('../packages/geometry/dist/index.js', import.meta.url).href);
  });

  test('finds packages where it should', () => {
    const path = fileURLToPath(import.meta.resolve('@sheetwave/geometry')).replaceAll('\\', '/');
    const file = project === 'source' ? 'src/index.ts' : 'dist/index.js';
    expect(path.endsWith(`/packages/geometry/${file}`), path).toBe(true);
  });

  test(
    project === 'source' ? 'does not share code with the built output' : 'uses the very objects that Node loads',
    () => {
      expect(here.walkContour).toBeTypeOf('function');
      expect(here.walkContour === byNode.walkContour).toBe(project === 'built');
    },
  );
});
