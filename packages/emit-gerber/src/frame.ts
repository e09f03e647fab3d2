import { type BoardPart, bounds, type Point } from '@sheetwave/geometry';

/** Grid units in a millimetre: `%FSLAX46Y46*%` with `%MOMM*%` counts in nanometres. */
export const UNITS_PER_MM = 1_000_000;

/** Four integer digits of millimetres. */
const LARGEST_UNITS = 9_999 * UNITS_PER_MM;

/** A place in a file of the set, in whole grid units (nm) from the lower left corner of the board. */
export interface GridPoint {
  readonly x: number;
  readonly y: number;
}

/** Moves a board's own coordinates so that the lower left corner of its outline is (0, 0). The same for all files of a board. */
export interface Frame {
  readonly widthMm: number;
  readonly heightMm: number;
  toGrid(point: Point): GridPoint;
  toMm(point: Point): Point;
}

export function boardFrame(board: BoardPart): Frame {
  const box = bounds(board.outline.outer);
  const toMm = ({ x, y }: Point): Point => ({ x: x - box.minX, y: y - box.minY });
  return {
    widthMm: box.maxX - box.minX,
    heightMm: box.maxY - box.minY,
    toMm,
    toGrid: (point) => {
      const { x, y } = toMm(point);
      return { x: gridUnits(x), y: gridUnits(y) };
    },
  };
}

/** Rounds millimetres to grid units. Throws for what the format cannot hold. */
export function gridUnits(mm: number): number {
  const units = Math.round(mm * UNITS_PER_MM) + 0;
  if (!Number.isFinite(units) || Math.abs(units) > LARGEST_UNITS)
    throw new Error(`Gerber: ${mm} mm does not fit the coordinate format`);
  return units;
}
