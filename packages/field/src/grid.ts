import { SPEED_OF_LIGHT } from './constants.ts';
import { AXES, type Axis } from './update.ts';

/** How one side of the grid ends. */
export type Side = 'open' | 'metal' | 'magnetic';

/** Grid lines and how the grid ends. Lines include the absorbing layers. Lengths in m. */
export interface Grid {
  readonly lines: Readonly<Record<Axis, Float64Array>>;
  readonly sides: Readonly<Record<Axis, { readonly low: Side; readonly high: 'open' | 'metal' }>>;
  /** Cells of the absorbing layer at each end; 0 at a wall. */
  readonly layers: Readonly<Record<Axis, { readonly low: number; readonly high: number }>>;
}

export const nodeCounts = ({ lines }: Grid) => ({ nx: lines.x.length, ny: lines.y.length, nz: lines.z.length });

/** Lengths of the cells between the lines of an axis. */
export const spacings = remembered((lines) =>
  Float64Array.from({ length: lines.length - 1 }, (_, n) => (lines[n + 1] as number) - (lines[n] as number)),
);

/**
 * Distances between cell centres, one for each line; at the two ends half a cell. At a low plane of magnetic symmetry
 * that is what the mirrored half leaves to this half.
 */
export const dualSpacings = remembered((lines) => {
  const cells = spacings(lines);
  return Float64Array.from(lines, (_, n) => ((cells[n - 1] ?? 0) + (cells[n] ?? 0)) / 2);
});

/** Lines do not change, and are asked for their distances at every edge: each array is worked through once. */
function remembered(distances: (lines: Float64Array) => Float64Array): (lines: Float64Array) => Float64Array {
  const known = new WeakMap<Float64Array, Float64Array>();
  return (lines) => {
    const found = known.get(lines) ?? distances(lines);
    known.set(lines, found);
    return found;
  };
}

const smallest = (values: Float64Array) =>
  values.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);

export const smallestCell = (grid: Grid): number =>
  Math.min(...AXES.map((axis) => smallest(spacings(grid.lines[axis]))));

/** Part of the largest stable step that is used. */
const SAFETY = 0.97;

/**
 * Time step, s: the limit of R. Courant, K. Friedrichs and H. Lewy for the smallest cell in each axis, c dt <=
 * (1/dx^2 + 1/dy^2 + 1/dz^2)^(-1/2) (Taflove, Computational Electrodynamics, chapter 4), times 0.97.
 */
export function timeStep(grid: Grid): number {
  const sum = AXES.reduce((total, axis) => total + 1 / smallest(spacings(grid.lines[axis])) ** 2, 0);
  return SAFETY / (SPEED_OF_LIGHT * Math.sqrt(sum));
}

/** Index of the line nearest to a place. */
export function nearestLine(lines: Float64Array, place: number): number {
  let low = 0;
  let high = lines.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((lines[middle] as number) <= place) low = middle;
    else high = middle;
  }
  return place - (lines[low] as number) <= (lines[high] as number) - place ? low : high;
}
