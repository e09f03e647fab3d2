import { strFromU8, unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import type { Triangle, Vertex } from './mesh.ts';
import { write3mf } from './three-mf-file.ts';

const corners: readonly Vertex[] = [
  [0, 0, 0],
  [Math.fround(3.1), 0, 0],
  [0, 4, 0],
  [0, 0, 5],
];
const [o, x, y, z] = corners as readonly [Vertex, Vertex, Vertex, Vertex];
const solid: readonly Triangle[] = [
  [o, y, x],
  [o, x, z],
  [o, z, y],
  [x, y, z],
];
const words = { title: 'a <test> & more', description: 'says "how"' };
const model = (bytes: Uint8Array): string => strFromU8(unzipSync(bytes)['3D/3dmodel.model'] ?? new Uint8Array());

test('facets share their corners, in millimetres as they were meant', () => {
  const text = model(write3mf(solid, words));
  expect(text.match(/<vertex /g)).toHaveLength(4);
  expect(text.match(/<triangle /g)).toHaveLength(4);
  expect(text).toContain('unit="millimeter"');
  // 3.1 in single precision is 3.0999999046.
  expect(text).toContain('<vertex x="3.1" y="0" z="0"/>');
  expect(text).not.toMatch(/[-"]0\.0*"|\de/);
});

test('words are escaped', () => {
  expect(model(write3mf(solid, words))).toContain('<metadata name="Title">a &lt;test&gt; &amp; more</metadata>');
});

test('has exactly the three parts a package needs, the list of types first', () => {
  expect(Object.keys(unzipSync(write3mf(solid, words)))).toEqual([
    '[Content_Types].xml',
    '_rels/.rels',
    '3D/3dmodel.model',
  ]);
});

test('the same mesh gives the same bytes wherever the clock is', () => {
  const zone = process.env.TZ;
  const all = ['UTC', 'Pacific/Kiritimati', 'America/St_Johns'].map((name) => {
    process.env.TZ = name;
    return Buffer.from(write3mf(solid, words)).toString('hex');
  });
  process.env.TZ = zone ?? '';
  if (zone === undefined) delete process.env.TZ;
  expect(new Set(all).size).toBe(1);
});

test('throws when corners that are told apart by less than it writes spoil the mesh', () => {
  const thin = solid.map((t) => t.map((v) => (v === z ? [0, 0, 1e-8] : v)) as unknown as Triangle);
  expect(() => write3mf(thin, words)).toThrow(/joined corners spoil/);
});
