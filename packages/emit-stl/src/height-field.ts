import { type Cell, type Cells, cellsOf, type Slab } from './field-cells.ts';
import type { Triangle, Vertex } from './mesh.ts';

/**
 * The closed surface of a solid that rises from the bed to a height over every place of it: no overhang anywhere, whatever
 * the faces are. Faces run along the first axis, slabs lie side by side along the second, heights are the third.
 * Every corner of a facet is a corner of its neighbours, so no edge is left open.
 *
 * Where the first slab begins, the lowest `bevelMm` lean inward at 45°: spread first layers do not stand proud there.
 * Throws when a height does not exceed the bevel.
 */
export function heightField(slabs: readonly Slab[], bevelMm: number): readonly Triangle[] {
  return new Field(slabs, bevelMm).triangles();
}

class Field {
  readonly #slabs: readonly Slab[];
  readonly #cells: Cells;
  readonly #bevelMm: number;

  constructor(slabs: readonly Slab[], bevelMm: number) {
    this.#slabs = slabs;
    this.#bevelMm = bevelMm;
    this.#cells = cellsOf(slabs);
    const heights = this.#cells.rows.flat().flatMap(({ start, end }) => [start, end]);
    if (heights.some((h) => h !== 0 && h <= bevelMm)) throw new Error(`a bevel of ${bevelMm} mm leaves no wall`);
  }

  triangles(): readonly Triangle[] {
    const all: Triangle[] = [];
    for (let k = 0; k <= this.#slabs.length; k++)
      for (let i = 0; i < this.#cells.stations.length; i++)
        all.push(...this.#floorAndTop(k, i), ...this.#wallAcross(k, i), ...this.#wallAlong(k, i));
    return all;
  }

  #cell(k: number, i: number): Cell {
    return this.#cells.rows[k]?.[i] ?? { start: 0, end: 0 };
  }

  /** All heights at which a surface meets the upright line over one grid corner, upward from the bed. */
  #levels(k: number, i: number): readonly number[] {
    const right = [this.#cell(k, i), this.#cell(k - 1, i)].map((c) => c.start);
    const left = [this.#cell(k, i - 1), this.#cell(k - 1, i - 1)].map((c) => c.end);
    const bevel = k === 0 ? [this.#bevelMm] : [];
    return [...new Set([0, ...bevel, ...right, ...left])].sort((a, b) => a - b);
  }

  #at(k: number, i: number, height: number): Vertex {
    const along = this.#slabs[k]?.from ?? this.#slabs.at(-1)?.to ?? 0;
    return [this.#cells.stations[i] ?? 0, k === 0 && height === 0 ? along + this.#bevelMm : along, height];
  }

  /** The part between two heights of the upright line over a corner. */
  #line(k: number, i: number, [low, high]: readonly [number, number]): readonly Vertex[] {
    return this.#levels(k, i)
      .filter((height) => height >= low && height <= high)
      .map((height) => this.#at(k, i, height));
  }

  #floorAndTop(k: number, i: number): readonly Triangle[] {
    const { start, end } = this.#cell(k, i);
    if (start === 0) return [];
    const edge = (row: number, from: number, to: number) => [this.#at(row, i, from), this.#at(row, i + 1, to)];
    return [...strip(edge(k, start, end), edge(k + 1, start, end)), ...strip(edge(k + 1, 0, 0), edge(k, 0, 0))];
  }

  /** Between slab k − 1 and slab k, over one cell. At the bevel it is two walls, one above the other. */
  #wallAcross(k: number, i: number): readonly Triangle[] {
    const [before, here] = [this.#cell(k - 1, i), this.#cell(k, i)];
    const risesBefore = before.start + before.end > here.start + here.end;
    const limits = k === 0 ? [0, this.#bevelMm, Infinity] : [0, Infinity];
    return limits.slice(1).flatMap((high, n) => {
      const within = (a: number, b: number) =>
        [Math.max(limits[n] ?? 0, Math.min(a, b)), Math.min(high, Math.max(a, b))] as const;
      const left = this.#line(k, i, within(before.start, here.start));
      const right = this.#line(k, i + 1, within(before.end, here.end));
      return risesBefore ? strip(left, right) : strip(right, left);
    });
  }

  /** Between two cells of slab k. */
  #wallAlong(k: number, i: number): readonly Triangle[] {
    const [left, right] = [this.#cell(k, i - 1).end, this.#cell(k, i).start];
    const span = [Math.min(left, right), Math.max(left, right)] as const;
    const [near, far] = [this.#line(k, i, span), this.#line(k + 1, i, span)];
    return left > right ? strip(far, near) : strip(near, far);
  }
}

/** Facets between two lines that run the same way, facing the side from which the second is seen left of the first. */
function strip(first: readonly Vertex[], second: readonly Vertex[]): readonly Triangle[] {
  const facets: Triangle[] = [];
  let [a, b] = [0, 0];
  for (;;) {
    const [p, q, nextP, nextQ] = [first[a], second[b], first[a + 1], second[b + 1]];
    if (p === undefined || q === undefined) return [];
    if (nextP !== undefined && (nextQ === undefined || nextP[2] <= nextQ[2])) {
      facets.push([p, nextP, q]);
      a++;
    } else if (nextQ !== undefined) {
      facets.push([p, nextQ, q]);
      b++;
    } else return facets.filter((facet) => !sameCorner(facet));
  }
}

function sameCorner([p, q, r]: Triangle): boolean {
  const same = (a: Vertex, b: Vertex): boolean => a.every((value, axis) => value === b[axis]);
  return same(p, q) || same(q, r) || same(p, r);
}
