import type { EmittedFile } from '@sheetwave/geometry';
import { meshBounds, meshFaults, type Triangle, type Vertex } from './mesh.ts';
import { facetsOf, type Solid } from './solid.ts';
import { writeStl } from './stl-file.ts';

export interface PrintableOptions {
  readonly path: string;
  /** What it is, in a few words; the unit is added. */
  readonly title: string;
  readonly part: string | undefined;
  /** Width, depth and height as printed; the written mesh must have them. */
  readonly sizeMm: Vertex;
  /** Coordinates that a caliper will judge, an axis each: written as exactly these numbers in single precision. */
  readonly exactMm: readonly [readonly number[], readonly number[], readonly number[]];
}

/** Snapping in the modeller and its serializer moves corners by up to 1e-5 of the part's size, below this on any bench printer. */
const SNAP_MM = 2e-3;

/**
 * One solid as a binary STL file, flat on z = 0 and centred. Throws, instead of writing it, when the mesh is not closed,
 * has facets without area, is inside out, or has not the size asked for: each would be a fault of this program.
 */
export function printable(solid: Solid, options: PrintableOptions): EmittedFile {
  const facets = facetsOf(solid).map((facet) => settle(facet, options.exactMm));
  const faults = [...meshFaults(facets), ...sizeFaults(facets, options.sizeMm)];
  if (faults.length > 0) throw new Error(`${options.path}: ${faults.join('; ')}`);
  const bytes = writeStl(facets, `sheetwave: ${options.title}; unit: mm`);
  return { path: options.path, kind: 'jig-stl', part: options.part, bytes };
}

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
