/** x, y, z in mm; z up from the print bed. */
export type Vertex = readonly [number, number, number];
/** Counter-clockwise seen from outside. */
export type Triangle = readonly [Vertex, Vertex, Vertex];

export interface Bounds {
  readonly low: Vertex;
  readonly high: Vertex;
}

/** What is wrong with a mesh, one clause a fault; empty for a closed solid that a slicer needs not repair. */
export function meshFaults(triangles: readonly Triangle[]): readonly string[] {
  if (triangles.length === 0) return ['it has no facets'];
  const faults: string[] = [];
  const open = unmatchedEdges(triangles);
  if (open > 0) faults.push(`${open} edges are not shared by exactly two facets`);
  const thin = triangles.filter((t) => doubleArea(t) === 0).length;
  if (thin > 0) faults.push(`${thin} facets have no area`);
  if (!(signedVolume(triangles) > 0)) faults.push('its volume is not above zero');
  return faults;
}

/** Edges that are not run through exactly once in each direction. Vertices are the same only when every bit is. */
export function unmatchedEdges(triangles: readonly Triangle[]): number {
  const numberOf = numbering();
  // No mesh has 2^26 vertices: the number of an edge is exact.
  const edge = (from: number, to: number): number => from * 2 ** 26 + to;
  const runs = new Map<number, number>();
  for (const triangle of triangles) {
    const [a, b, c] = [numberOf(triangle[0]), numberOf(triangle[1]), numberOf(triangle[2])];
    for (const key of [edge(a, b), edge(b, c), edge(c, a)]) runs.set(key, (runs.get(key) ?? 0) + 1);
  }
  let unmatched = 0;
  for (const [key, count] of runs) {
    const [from, to] = [Math.floor(key / 2 ** 26), key % 2 ** 26];
    if (count !== 1 || runs.get(edge(to, from)) !== 1) unmatched++;
  }
  return unmatched;
}

/** Numbers vertices from 0 in the order of their first coming; equal ones have one number. Maps by coordinate: writing them as text would take far longer. */
export function numbering(): (vertex: Vertex) => number {
  const byX = new Map<number, Map<number, Map<number, number>>>();
  let count = 0;
  return ([x, y, z]) => {
    const byY = entry(byX, x, () => new Map<number, Map<number, number>>());
    const byZ = entry(byY, y, () => new Map<number, number>());
    return entry(byZ, z, () => count++);
  };
}

function entry<T>(map: Map<number, T>, key: number, make: () => T): T {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made = make();
  map.set(key, made);
  return made;
}

/** Divergence theorem: Σ v1 · (v2 × v3) / 6 over the facets; above zero when they face outward. mm³. */
export function signedVolume(triangles: readonly Triangle[]): number {
  return triangles.reduce((sum, [a, b, c]) => sum + dot(a, cross(b, c)), 0) / 6;
}

export function meshBounds(triangles: readonly Triangle[]): Bounds {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const vertex of triangles.flat())
    for (const axis of [0, 1, 2] as const) {
      low[axis] = Math.min(low[axis], vertex[axis]);
      high[axis] = Math.max(high[axis], vertex[axis]);
    }
  return { low, high };
}

/** Unit length, by the right-hand rule; zero for a facet without area. */
export function facetNormal([a, b, c]: Triangle): Vertex {
  const [x, y, z] = cross(minus(b, a), minus(c, a));
  const length = Math.hypot(x, y, z);
  return length === 0 ? [0, 0, 0] : [x / length, y / length, z / length];
}

const doubleArea = ([a, b, c]: Triangle): number => Math.hypot(...cross(minus(b, a), minus(c, a)));
const minus = (a: Vertex, b: Vertex): Vertex => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Vertex, b: Vertex): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vertex, b: Vertex): Vertex => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
