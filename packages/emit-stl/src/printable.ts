import type { EmittedFile } from '@sheetwave/geometry';
import { meshBounds, meshFaults, type Triangle, type Vertex } from './mesh.ts';
import { writeStl } from './stl-file.ts';
import { write3mf } from './three-mf-file.ts';

export interface PrintableOptions {
  /** Without the ending, which each of the two formats adds. */
  readonly path: string;
  /** What it is, in a few words; the unit is added. */
  readonly title: string;
  /** How many to print and how it is used, for whoever opens the file without the rest. */
  readonly use: string;
  readonly part: string | undefined;
  /** Width, depth and height as printed; the written mesh must have them. */
  readonly sizeMm: Vertex;
  /** Coordinates that a caliper will judge, an axis each: written as exactly these numbers in single precision. */
  readonly exactMm: readonly [readonly number[], readonly number[], readonly number[]];
}

/** Snapping in the modeller and its serializer moves corners by up to 1e-5 of the part's size, below this on any bench printer. */
const SNAP_MM = 2e-3;

/**
 * One closed mesh as a binary STL file and as a 3MF file, flat on z = 0 and centred. Throws, instead of writing them, when it
 * is not closed, has facets without area, is inside out, or has not the size asked for: each would be a fault of this program.
 */
export function printable(triangles: readonly Triangle[], options: PrintableOptions): readonly EmittedFile[] {
  const facets = triangles.map((facet) => settle(facet, options.exactMm));
  const faults = [...meshFaults(facets), ...sizeFaults(facets, options.sizeMm)];
  if (faults.length > 0) throw new Error(`${options.path}: ${faults.join('; ')}`);
  const { part, title } = options;
  const stl = writeStl(facets, headerOf(title));
  const threeMf = write3mf(facets, { title, description: options.use });
  return [
    { path: `${options.path}.stl`, kind: 'jig-stl', part, bytes: stl },
    { path: `${options.path}.3mf`, kind: 'jig-3mf', part, bytes: threeMf },
  ];
}

/** A header has 80 characters; a long title loses its end, never its unit. */
const headerOf = (title: string): string => `sheetwave: ${title.slice(0, 58)}; unit: mm`;

const settle = (facet: Triangle, exactMm: PrintableOptions['exactMm']): Triangle => {
  const [a, b, c] = facet;
  return [settleVertex(a, exactMm), settleVertex(b, exactMm), settleVertex(c, exactMm)];
};

const settleVertex = (vertex: Vertex, exactMm: PrintableOptions['exactMm']): Vertex => [
  nearest(vertex[0], exactMm[0]),
  nearest(vertex[1], exactMm[1]),
  nearest(vertex[2], exactMm[2]),
];

const nearest = (value: number, levels: readonly number[]): number =>
  Math.fround(levels.find((level) => Math.abs(level - value) < SNAP_MM) ?? value);

function sizeFaults(facets: readonly Triangle[], sizeMm: Vertex): readonly string[] {
  const { low, high } = meshBounds(facets);
  const faults = ([0, 1, 2] as const).flatMap((axis) => {
    const wanted = axis === 2 ? [0, sizeMm[2]] : [-sizeMm[axis] / 2, sizeMm[axis] / 2];
    const found = [low[axis], high[axis]];
    const far = wanted.some((value, i) => !(Math.abs(value - (found[i] ?? Number.NaN)) <= SNAP_MM));
    return far ? [`it spans ${found.join(' to ')} mm on axis ${axis}, not ${wanted.join(' to ')} mm`] : [];
  });
  return low[2] === 0 ? faults : [...faults, 'it does not lie flat on z = 0'];
}
