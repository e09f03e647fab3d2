import { fileURLToPath } from 'node:url';
import { walkContour } from '@sheetwave/geometry';
import { expect, inject, test } from 'vitest';

// Each of the two test projects must load the code that it is named for. The project that tests the built output must
// also leave the loading to Node: a test runner that transforms the files would forgive imports that Node refuses.

declare module 'vitest' {
  interface ProvidedContext {
    testedCode: 'source' | 'built';
  }
}

const project = inject('testedCode');

/** The call stack inside a function of the package, which names the file that it was loaded from. */
function stackInside(): string {
  let stack = '';
  const note = () => {
    stack = new Error('here').stack ?? '';
  };
  const sink = { circle: note, begin: note, line: note, arc: note, close: note };
  walkContour({ kind: 'circle', centre: { x: 0, y: 0 }, radiusMm: 1 }, sink);
  return stack.replaceAll('\\', '/');
}

/** Node's own `import`: the runner leaves a module in a data URL alone, so what that module imports is Node's as well. */
async function importByNode(specifier: string): Promise<Readonly<Record<string, unknown>>> {
  const node = await import('data:text/javascript,export const load = (specifier) => import(specifier);' as string);
  return node.load(specifier);
}

test(`tests of the ${project} code find packages there`, () => {
  const path = fileURLToPath(import.meta.resolve('@sheetwave/geometry')).replaceAll('\\', '/');
  const file = project === 'source' ? 'src/index.ts' : 'dist/index.js';
  expect(path.endsWith(`/packages/geometry/${file}`), path).toBe(true);
});

test(`tests of the ${project} code run it`, () => {
  const [own, other] = project === 'source' ? ['src/walk.ts', 'dist/walk.js'] : ['dist/walk.js', 'src/walk.ts'];
  expect(stackInside()).toContain(`/packages/geometry/${own}`);
  expect(stackInside()).not.toContain(`/packages/geometry/${other}`);
});

if (project === 'built') {
  test('tests of the built code use the very objects that Node loads', async () => {
    const byNode = await importByNode(new URL('../packages/geometry/dist/index.js', import.meta.url).href);
    expect(byNode.walkContour).toBe(walkContour);
  });
}
