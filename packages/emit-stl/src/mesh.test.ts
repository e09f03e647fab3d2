import { describe, expect, test } from 'vitest';
import {
  facetNormal,
  meshBounds,
  meshFaults,
  signedVolume,
  type Triangle,
  unmatchedEdges,
  type Vertex,
} from './mesh.ts';

const [o, x, y, z]: readonly [Vertex, Vertex, Vertex, Vertex] = [
  [0, 0, 0],
  [3, 0, 0],
  [0, 4, 0],
  [0, 0, 5],
];
/** Corner of a box of 3 x 4 x 5 mm, facets outward. */
const tetrahedron: readonly Triangle[] = [
  [o, y, x],
  [o, x, z],
  [o, z, y],
  [x, y, z],
];

describe('a closed solid', () => {
  test('has no faults', () => {
    expect(meshFaults(tetrahedron)).toEqual([]);
  });

  test('has the volume and the bounds of its closed form', () => {
    // Tetrahedron on three edges at right angles: a·b·c / 6 (computed).
    expect(signedVolume(tetrahedron)).toBeCloseTo(10, 12);
    expect(meshBounds(tetrahedron)).toEqual({ low: [0, 0, 0], high: [3, 4, 5] });
  });

  test('has outward normals of length one', () => {
    // Plane x/3 + y/4 + z/5 = 1: normal (20, 15, 12) / √769 (computed).
    const slope = Math.sqrt(769);
    const found = facetNormal([x, y, z]);
    [20 / slope, 15 / slope, 12 / slope].forEach((value, axis) => {
      expect(found[axis]).toBeCloseTo(value, 12);
    });
  });
});

describe('a mesh that a slicer would have to repair', () => {
  test('one facet missing: its three edges are open', () => {
    expect(unmatchedEdges(tetrahedron.slice(1))).toBe(3);
    expect(meshFaults(tetrahedron.slice(1))).toContain('3 edges are not shared by exactly two facets');
  });

  test('one facet turned over', () => {
    const turned = tetrahedron.map(([a, b, c], i): Triangle => (i === 0 ? [a, c, b] : [a, b, c]));
    expect(unmatchedEdges(turned)).toBeGreaterThan(0);
  });

  test('a corner that is off by the smallest step', () => {
    const off = tetrahedron.map((t, i) =>
      i === 0 ? (t.map((v) => (v === x ? [Math.fround(3 + 2e-7), 0, 0] : v)) as unknown as Triangle) : t,
    );
    expect(unmatchedEdges(off)).toBeGreaterThan(0);
  });

  test('two solids that share an edge', () => {
    const mirrored = tetrahedron.map(([a, b, c]): Triangle => [a, c, b].map(([u, v, w]) => [-u, -v, w]) as never);
    const both = [...tetrahedron, ...mirrored.map(([a, b, c]): Triangle => [a, c, b])];
    expect(meshFaults(both)).not.toEqual([]);
  });

  test('inside out', () => {
    const inside = tetrahedron.map(([a, b, c]): Triangle => [a, c, b]);
    expect(meshFaults(inside)).toEqual(['its volume is not above zero']);
  });

  test('a facet without area', () => {
    const flat: readonly Triangle[] = [...tetrahedron, [o, x, o], [x, o, x]];
    expect(meshFaults(flat)).toContain('2 facets have no area');
  });

  test('nothing at all', () => {
    expect(meshFaults([])).toEqual(['it has no facets']);
  });
});
