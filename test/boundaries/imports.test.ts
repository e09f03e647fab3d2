import { existsSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, test } from 'vitest';
import { IN_MORE_FILES, LAYERS, MAY_HAVE_EFFECTS, NODE_MODULES, READ_AS_FILES, WRAPPED } from './layers.ts';
import { type Import, packageOf, parseSource } from './parse-source.ts';
import { PACKAGES, projectFiles, ROOT, readManifest } from './workspace.ts';

const ALLOWED = new Map(LAYERS.map(([name, mayImport]) => [name, mayImport] as const));
const isTest = (path: string) => path.endsWith('.test.ts');

const packageFiles = projectFiles('packages').filter((path) => /\/src\/.*\.ts$/.test(path) && !path.endsWith('.d.ts'));
const sources = packageFiles.map((path) => parseSource(path));
const productImports = sources.filter((source) => !isTest(source.path)).flatMap((source) => source.imports);
const allImports = sources.flatMap((source) => source.imports);
const testImports = projectFiles('test')
  .filter((path) => path.endsWith('.ts'))
  .flatMap((path) => parseSource(path).imports);

const ownerOf = (path: string) => path.split('/')[1] ?? '';
const say = (one: Import) => `${one.from} imports ${one.specifier}`;
const ours = (specifier: string) => /^@sheetwave\/([^/]+)/.exec(specifier)?.[1];

describe('the parser behind these checks', () => {
  const parse = (text: string) => parseSource('x.ts', text);

  test('finds every form of import, over several lines, and nothing in comments or strings', () => {
    const found = parse(`
      import a, { type B } from 'one';
      import {
        c,
        d as e,
      } from "two";
      import type { F } from 'three';
      import 'four';
      export * from 'five';
      export { g } from 'six';
      const later = () => import('seven');
      const built = (x: string) => import(x + '.js');
      type H = import('eight').H;
      // import x from 'comment';
      const text = "import x from 'string'";
    `).imports;
    expect(found.filter((one) => one.typeOnly).map((one) => one.specifier)).toEqual(['three', 'eight']);
    expect(new Set(found.map((one) => one.specifier))).toEqual(
      new Set(['one', 'two', 'three', 'four', 'five', 'six', 'seven', '(computed)', 'eight']),
    );
  });

  test('finds what depends on the clock, chance, place or locale', () => {
    const text =
      'Date.now(); new Date(); Math.random(); process.cwd(); x.toLocaleString(); a.localeCompare(b); fetch(u);';
    expect(new Set(parse(text).effects)).toEqual(
      new Set(['Date.now', 'new Date()', 'Math.random', 'process', 'x.toLocaleString', 'a.localeCompare', 'fetch']),
    );
    expect(parse('new Date(stamp); Math.round(1); process.kerfMm; // Date.now()').effects).toEqual([]);
  });
});

describe('between packages', () => {
  test('every package has its line in the table of layers, and the table goes upwards only', () => {
    expect([...ALLOWED.keys()].sort()).toEqual([...PACKAGES]);
    const names = LAYERS.map(([name]) => name);
    for (const [name, mayImport] of LAYERS) {
      for (const lower of mayImport)
        expect(names.indexOf(lower), `${name} on ${lower}`).toBeLessThan(names.indexOf(name));
    }
  });

  test('imports point downwards', () => {
    const upwards = allImports.filter((one) => {
      const target = ours(one.specifier);
      return target !== undefined && ALLOWED.get(ownerOf(one.from))?.includes(target) !== true;
    });
    expect(upwards.map(say)).toEqual([]);
  });

  test('a package is imported by its bare name only', () => {
    const deep = [...allImports, ...testImports].filter((one) => /^@sheetwave\/[^/]+\//.test(one.specifier));
    expect(deep.map(say)).toEqual([]);
  });

  test('relative imports stay inside their package, or inside test/, and name a file', () => {
    const wrong = [...allImports, ...testImports].filter((one) => {
      if (!one.specifier.startsWith('.')) return one.specifier.startsWith('/') || one.specifier === '(computed)';
      const target = normalize(join(dirname(one.from), one.specifier)).replaceAll('\\', '/');
      const own = `packages/${ownerOf(one.from)}/`;
      // What only the unit tests of a package share may lie beside its sources.
      const home = one.from.startsWith('test/') ? 'test/' : isTest(one.from) ? own : `${own}src/`;
      return !target.startsWith(home) || !existsSync(join(ROOT, target)) || !/\.(ts|json)$/.test(target);
    });
    // A test may load any package by a name that it computes; a package may not.
    expect(wrong.filter((one) => !(one.from.startsWith('test/') && one.specifier === '(computed)')).map(say)).toEqual(
      [],
    );
  });

  test.each(PACKAGES)('%s declares what it imports and imports what it declares', (name) => {
    const declared = Object.keys(readManifest(`packages/${name}`).dependencies ?? {}).sort();
    const imported = productImports.filter((one) => ownerOf(one.from) === name).map((one) => packageOf(one.specifier));
    const read = Object.keys(READ_AS_FILES).filter((one) => READ_AS_FILES[one] === name);
    expect([...new Set([...imported.filter((one) => one !== undefined), ...read])].sort()).toEqual(declared);
  });

  test('unit tests import nothing that their package or the project does not declare', () => {
    const shared = Object.keys(readManifest('.').devDependencies ?? {});
    const undeclared = allImports.filter((one) => {
      const target = packageOf(one.specifier);
      if (!isTest(one.from) || target === undefined) return false;
      return (
        !shared.includes(target) && !(target in (readManifest(`packages/${ownerOf(one.from)}`).dependencies ?? {}))
      );
    });
    expect(undeclared.map(say)).toEqual([]);
  });
});

describe('inside packages', () => {
  test('index.ts only re-exports', () => {
    const busy = sources.filter((source) => source.path.endsWith('/src/index.ts') && source.ownStatements > 0);
    expect(busy.map((source) => source.path)).toEqual([]);
  });

  test('no file needs itself through others while loading', () => {
    expect(findCircles(productImports)).toEqual([]);
    const pair = [
      { from: 'p/a.ts', specifier: './b.ts', names: ['b'], typeOnly: false },
      { from: 'p/b.ts', specifier: './a.ts', names: ['a'], typeOnly: false },
    ];
    expect(findCircles(pair)).toEqual(['p/a.ts → p/b.ts → p/a.ts']);
  });

  test('each outside library stands behind one file', () => {
    const files = new Map<string, Set<string>>();
    for (const one of productImports) {
      const library = packageOf(one.specifier);
      if (library === undefined || library.startsWith('@sheetwave/')) continue;
      if (IN_MORE_FILES[library]?.test(one.from)) continue;
      files.set(library, (files.get(library) ?? new Set()).add(one.from));
    }
    for (const [library, users] of files) {
      expect([...users], `files that import ${library}`).toHaveLength(1);
      if (library in WRAPPED) expect([...users]).toEqual([WRAPPED[library]]);
    }
  });

  test('the file system and the rest of Node are imported only where the table says', () => {
    const outside = productImports.filter((one) => {
      if (!one.specifier.startsWith('node:') && packageOf(one.specifier) !== undefined) return false;
      if (one.specifier.startsWith('.')) return false;
      const rules = NODE_MODULES.filter(([file]) => file.test(one.from)).flatMap(([, modules]) => modules);
      return !rules.some((module) => module.test(one.specifier));
    });
    expect(outside.map(say)).toEqual([]);
    const digests = productImports.filter((one) => one.specifier === 'node:crypto' && !one.from.includes('/cli/'));
    expect(digests.filter((one) => one.names.join() !== 'createHash').map(say)).toEqual([]);
  });

  test('no clock, no chance, no process and no locale outside the command and the writing of the pack', () => {
    const impure = sources.filter((source) => !isTest(source.path) && !MAY_HAVE_EFFECTS.test(source.path));
    expect(impure.flatMap((source) => source.effects.map((effect) => `${source.path}: ${effect}`))).toEqual([]);
  });
});

/** Circles of files that load one another, each told once, from its first file in order. */
function findCircles(imports: readonly Import[]): string[] {
  const next = new Map<string, string[]>();
  for (const one of imports) {
    if (one.typeOnly || !one.specifier.startsWith('.')) continue;
    const target = normalize(join(dirname(one.from), one.specifier)).replaceAll('\\', '/');
    next.set(one.from, [...(next.get(one.from) ?? []), target]);
  }
  const circles = new Set<string>();
  const done = new Set<string>();
  const visit = (file: string, path: readonly string[]): void => {
    const start = path.indexOf(file);
    if (start >= 0) circles.add([...path.slice(start), file].join(' → '));
    if (start >= 0 || done.has(file)) return;
    for (const target of next.get(file) ?? []) visit(target, [...path, file]);
    done.add(file);
  };
  for (const file of [...next.keys()].sort()) visit(file, []);
  return [...circles];
}
