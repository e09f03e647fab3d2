import type { Rect, Room } from './pack-rectangles.ts';

/** Equal rectangles in columns and rows, all turned or none. `of` is the place of their kind in the list that was given. */
export interface Block extends Rect {
  readonly of: number;
  readonly columns: number;
  readonly rows: number;
  readonly piecesTurned: boolean;
}

/** One kind of rectangle, and how many of it. */
export interface Kind extends Rect {
  readonly quantity: number;
}

/** How equal pieces are put together before packing: each by itself, in rows as long as the room, or in blocks of such rows. */
export type Grouping = 'singles' | 'rows' | 'blocks';

/**
 * Blocks that together hold every piece of every kind and each fit into the room; kinds must fit singly.
 * Rows and blocks keep the packing of a thousand equal pieces down to some tens of rectangles.
 */
export function blocksOf(kinds: readonly Kind[], room: Room, grouping: Grouping): readonly Block[] {
  return kinds.flatMap((kind, of) => kindBlocks({ ...kind, of }, room, grouping));
}

function kindBlocks(kind: Kind & { readonly of: number }, room: Room, grouping: Grouping): readonly Block[] {
  const { columns, rows, turned } = fullest(kind, room);
  const full = columns * rows;
  const make = (c: number, r: number): Block => block(kind, { columns: c, rows: r, turned, gapMm: room.gapMm });
  const times = (count: number, one: Block): Block[] => Array.from({ length: count }, () => one);
  if (grouping === 'singles') return times(kind.quantity, make(1, 1));
  const rest = kind.quantity % full;
  const restRows = Math.floor(rest / columns);
  const perRow = grouping === 'rows' ? Math.floor(kind.quantity / columns) : restRows;
  const together = grouping === 'rows' ? [] : times(Math.floor(kind.quantity / full), make(columns, rows));
  const inRows = grouping === 'rows' ? times(perRow, make(columns, 1)) : restRows > 0 ? [make(columns, restRows)] : [];
  return [...together, ...inRows, ...times(kind.quantity % columns, make(1, 1))];
}

/** As many columns and rows as the room takes, the way round that takes more. */
function fullest(
  kind: Rect,
  room: Room,
): { readonly columns: number; readonly rows: number; readonly turned: boolean } {
  const upright = {
    columns: count(kind.widthMm, room.widthMm, room.gapMm),
    rows: count(kind.heightMm, room.heightMm, room.gapMm),
    turned: false,
  };
  if (!kind.turnable) return upright;
  const lying = {
    columns: count(kind.heightMm, room.widthMm, room.gapMm),
    rows: count(kind.widthMm, room.heightMm, room.gapMm),
    turned: true,
  };
  return lying.columns * lying.rows > upright.columns * upright.rows ? lying : upright;
}

/** n pieces and n − 1 gaps; a nanometre for rounding. */
const count = (eachMm: number, roomMm: number, gapMm: number): number =>
  Math.floor((roomMm + gapMm + 1e-6) / (eachMm + gapMm));

function block(
  kind: Rect & { readonly of: number },
  lay: { readonly columns: number; readonly rows: number; readonly turned: boolean; readonly gapMm: number },
): Block {
  const [wide, high] = lay.turned ? [kind.heightMm, kind.widthMm] : [kind.widthMm, kind.heightMm];
  return {
    of: kind.of,
    columns: lay.columns,
    rows: lay.rows,
    piecesTurned: lay.turned,
    widthMm: lay.columns * (wide + lay.gapMm) - lay.gapMm,
    heightMm: lay.rows * (high + lay.gapMm) - lay.gapMm,
    turnable: kind.turnable,
  };
}
