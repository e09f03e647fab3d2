import { type Grid, nodeCounts } from './grid.ts';
import type { Axis, ElectricName, MagneticName } from './update.ts';

/**
 * What metal does to the edges and faces of the grid. Index of element (i, j, k): `(k * ny + j) * nx + i`.
 */
export interface Metal {
  /** 1 where an edge lies in metal. */
  readonly inMetal: Readonly<Record<ElectricName, Uint8Array>>;
  /** Capacitance of an edge relative to free space; 1 where there is no entry. */
  readonly edgeFactor: Readonly<Record<ElectricName, Map<number, number>>>;
  /** Factor cm of a face; 1 where there is no entry. */
  readonly faceFactor: Readonly<Record<MagneticName, Map<number, number>>>;
}

export function noMetal(grid: Grid): Metal {
  const { nx, ny, nz } = nodeCounts(grid);
  const mask = () => new Uint8Array(nx * ny * nz);
  const map = () => new Map<number, number>();
  return {
    inMetal: { ex: mask(), ey: mask(), ez: mask() },
    edgeFactor: { ex: map(), ey: map(), ez: map() },
    faceFactor: { hx: map(), hy: map(), hz: map() },
  };
}

/** Distance in memory between neighbours along each axis. */
export function strides(grid: Grid): Readonly<Record<Axis, number>> {
  const { nx, ny } = nodeCounts(grid);
  return { x: 1, y: nx, z: nx * ny };
}

export const multiplyFactor = (factors: Map<number, number>, element: number, factor: number): void => {
  factors.set(element, (factors.get(element) ?? 1) * factor);
};

export const electricAlong = (axis: Axis): ElectricName => `e${axis}`;
export const magneticAlong = (axis: Axis): MagneticName => `h${axis}`;
