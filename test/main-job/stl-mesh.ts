// A reader of binary STL that shares nothing with the writer: layout from the published description of the format
// (confirmed): 80 bytes, uint32 count, then 50 bytes a facet, little-endian.

export type Point3 = readonly [number, number, number];
export type Facet = readonly [Point3, Point3, Point3];
export interface Spot {
  readonly x: number;
  readonly y: number;
}
export type Loop = readonly Spot[];

export interface StlMesh {
  readonly header: string;
  readonly facets: readonly Facet[];
  /** Facet normals as written. */
  readonly normals: readonly Point3[];
}

export function readMesh(bytes: Uint8Array): StlMesh {
  const buffer = Buffer.from(bytes);
  const count = buffer.readUInt32LE(80);
  if (buffer.length !== 84 + 50 * count) throw new Error(`${buffer.length} bytes for ${count} facets`);
  const point = (at: number): Point3 => [
    buffer.readFloatLE(at),
    buffer.readFloatLE(at + 4),
    buffer.readFloatLE(at + 8),
  ];
  const starts = Array.from({ length: count }, (_, i) => 84 + 50 * i);
  return {
    header: buffer.toString('latin1', 0, 80),
    normals: starts.map(point),
    facets: starts.map((at) => [point(at + 12), point(at + 24), point(at + 36)]),
  };
}

/** How many edges are shared by a number of facets other than two, or twice in the same direction. */
export function badEdges(facets: readonly Facet[]): number {
  const uses = new Map<string, { there: number; back: number }>();
  const name = (p: Point3) => p.join(' ');
  for (const facet of facets)
    for (let i = 0; i < 3; i++) {
      const [from, to] = [name(facet[i] as Point3), name(facet[(i + 1) % 3] as Point3)];
      const key = from < to ? `${from}|${to}` : `${to}|${from}`;
      const use = uses.get(key) ?? { there: 0, back: 0 };
      if (from < to) use.there++;
      else use.back++;
      uses.set(key, use);
    }
  return [...uses.values()].filter(({ there, back }) => there !== 1 || back !== 1).length;
}

/** By summing signed prisms between each facet and the plane z = 0. */
export function meshVolume(facets: readonly Facet[]): number {
  return facets.reduce((sum, [a, b, c]) => {
    const shadow = ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2;
    return sum + (shadow * (a[2] + b[2] + c[2])) / 3;
  }, 0);
}

export function facetArea([a, b, c]: Facet): number {
  const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
  const v = [c[0] - a[0], c[1] - a[1], c[2] - a[2]] as const;
  return Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
}

export function extent(facets: readonly Facet[], axis: 0 | 1 | 2): readonly [number, number] {
  const values = facets.flatMap((facet) => facet.map((p) => p[axis]));
  return [Math.min(...values), Math.max(...values)];
}

/** Closed loops where a plane y = `at` cuts the mesh, as (x, z). Throws when they do not close, or at a height of corners. */
export function sectionAcrossY(facets: readonly Facet[], at: number): readonly Loop[] {
  const next = new Map<string, { readonly to: string; readonly spot: Spot }>();
  for (const facet of facets) {
    if (facet.some((p) => p[1] === at)) throw new Error(`cut the mesh beside its corners, not at ${at}`);
    const cut = facet.flatMap((p, i) => {
      const q = facet[(i + 1) % 3] as Point3;
      return p[1] < at !== q[1] < at ? [{ rising: q[1] > at, spot: crossing(p, q, at) }] : [];
    });
    const [from, to] = [cut.find((c) => c.rising), cut.find((c) => !c.rising)];
    if (from !== undefined && to !== undefined)
      next.set(spotName(from.spot), { to: spotName(to.spot), spot: from.spot });
  }
  return loopsOf(next);
}

const spotName = ({ x, y }: Spot) => `${x} ${y}`;

/** The same two corners give the same point whichever facet asks. */
function crossing(p: Point3, q: Point3, at: number): Spot {
  const [low, high] = p[1] < q[1] ? [p, q] : [q, p];
  const part = (at - low[1]) / (high[1] - low[1]);
  return { x: low[0] + part * (high[0] - low[0]), y: low[2] + part * (high[2] - low[2]) };
}

function loopsOf(next: Map<string, { readonly to: string; readonly spot: Spot }>): readonly Loop[] {
  const loops: Spot[][] = [];
  while (next.size > 0) {
    const loop: Spot[] = [];
    let [here] = next.keys();
    for (let step = here === undefined ? undefined : next.get(here); step; step = next.get(here as string)) {
      loop.push(step.spot);
      next.delete(here as string);
      here = step.to;
    }
    if (here === undefined || loop[0] === undefined || spotName(loop[0]) !== here)
      throw new Error('a section stays open');
    loops.push(loop);
  }
  return loops;
}

/**
 * Closed loops where a plane z = `at` cuts the mesh, as (x, y), without points on straight sides. Throws as `sectionAcrossY`
 * does.
 */
export function sectionAcrossZ(facets: readonly Facet[], at: number): readonly Loop[] {
  const swapped = facets.map(([a, b, c]): Facet => [swapYZ(a), swapYZ(c), swapYZ(b)]);
  return sectionAcrossY(swapped, at).map((loop) => loop.filter((p, i) => !isInLine(loop, p, i)));
}

function isInLine(loop: Loop, p: Spot, i: number): boolean {
  const [a, b] = [loop.at(i - 1) ?? p, loop[(i + 1) % loop.length] ?? p];
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  return Math.abs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) < 1e-4 * length;
}

const swapYZ = ([x, y, z]: Point3): Point3 => [x, z, y];

export function loopArea(loop: Loop): number {
  return loop.reduce((sum, p, i) => {
    const q = loop[(i + 1) % loop.length] ?? p;
    return sum + (p.x * q.y - q.x * p.y) / 2;
  }, 0);
}
