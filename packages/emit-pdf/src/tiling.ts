import { heightOf, widthOf } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';

/**
 * A drawing over several pages. Cells of equal size lie side by side; a page shows its cell and half the overlap beyond it on
 * every side, so that neighbours share a band, and the corner of four cells is on all four pages.
 */
export interface Tiling {
  readonly columns: number;
  readonly rows: number;
  /** From left to right, the top row first. */
  readonly tiles: readonly Tile[];
}

export interface Tile {
  /** From 1, from the left and from the top. */
  readonly column: number;
  readonly row: number;
  /** What the page shows, in drawing coordinates. */
  readonly window: Bounds;
  /** The corners of its cell: where register marks go. */
  readonly corners: readonly Corner[];
}

export interface Corner {
  /** Numbers of the two lines between cells that cross there, `2-1`: the same on every page. Holes are named by letters. */
  readonly name: string;
  readonly at: Point;
}

export interface Room {
  /** Largest piece of a drawing that fits on a page. */
  readonly widthMm: number;
  readonly heightMm: number;
  readonly overlapMm: number;
}

/**
 * The fewest cells that show all of `drawing`, with the drawing in their middle.
 *
 * @throws Error when the overlap leaves nothing of the room.
 */
export function tilingOf(drawing: Bounds, room: Room): Tiling {
  const across = lineUp(drawing.minX, widthOf(drawing), { roomMm: room.widthMm, overlapMm: room.overlapMm });
  const up = lineUp(drawing.minY, heightOf(drawing), { roomMm: room.heightMm, overlapMm: room.overlapMm });
  const [columns, rows] = [across.length - 1, up.length - 1];
  const lines = { across, down: [...up].reverse() };
  const tiles = Array.from({ length: rows * columns }, (_, index) =>
    tileAt(lines, { column: index % columns, row: Math.floor(index / columns) }, room.overlapMm / 2),
  );
  return { columns, rows, tiles };
}

/** The lines between cells along one axis, outer ones included. */
function lineUp(start: number, length: number, fit: { roomMm: number; overlapMm: number }): readonly number[] {
  const cell = fit.roomMm - fit.overlapMm;
  if (!(cell > 0)) throw new Error(`pages of ${fit.roomMm} mm cannot overlap by ${fit.overlapMm} mm`);
  const count = Math.max(1, Math.ceil((length - fit.overlapMm) / cell - 1e-9));
  const first = start + (length - count * cell) / 2;
  return Array.from({ length: count + 1 }, (_, index) => first + index * cell);
}

interface Lines {
  readonly across: readonly number[];
  /** From the top. */
  readonly down: readonly number[];
}

function tileAt(lines: Lines, cell: { readonly column: number; readonly row: number }, beyond: number): Tile {
  const { column, row } = cell;
  const cornerOf = (right: 0 | 1, below: 0 | 1): Corner => ({
    name: `${column + right + 1}-${row + below + 1}`,
    at: { x: lines.across[column + right] ?? 0, y: lines.down[row + below] ?? 0 },
  });
  const [upperLeft, lowerRight] = [cornerOf(0, 0), cornerOf(1, 1)];
  return {
    column: column + 1,
    row: row + 1,
    window: {
      minX: upperLeft.at.x - beyond,
      maxX: lowerRight.at.x + beyond,
      minY: lowerRight.at.y - beyond,
      maxY: upperLeft.at.y + beyond,
    },
    corners: [upperLeft, cornerOf(1, 0), cornerOf(0, 1), lowerRight],
  };
}
