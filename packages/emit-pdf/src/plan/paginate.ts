import type { Piece } from './piece.ts';

export interface PlacedPiece {
  readonly piece: Piece;
  /** From the top of the room downwards. */
  readonly downMm: number;
}

export type PlacedPage = readonly PlacedPiece[];

/**
 * Pieces on pages of one height, in order. Those that keep their next one move on together, as long as they fit on a page at all;
 * a piece that is higher than a page has one to itself.
 */
export function paginate(pieces: readonly Piece[], roomMm: number): readonly PlacedPage[] {
  const pages: PlacedPiece[][] = [];
  let down = Number.POSITIVE_INFINITY;
  for (const group of groupsOf(pieces)) {
    const [first] = group;
    if (first === undefined) continue;
    const height = heightOf(group, down);
    if (first.beginsPage === true || (down + height > roomMm + 1e-6 && down > 0)) {
      pages.push([]);
      down = 0;
    }
    for (const piece of group) {
      // A group that no page holds goes on where it must.
      if (down > 0 && down + piece.beforeMm + piece.heightMm > roomMm + 1e-6) {
        pages.push([]);
        down = 0;
      }
      down = place(pages, piece, down);
    }
  }
  return pages;
}

function place(pages: PlacedPiece[][], piece: Piece, down: number): number {
  const page = pages.at(-1);
  if (page === undefined) throw new Error('a piece needs a page');
  let at = down;
  if (at === 0 && piece.repeat !== undefined) {
    page.push({ piece: piece.repeat, downMm: 0 });
    at = piece.repeat.heightMm;
  } else if (at > 0) at += piece.beforeMm;
  page.push({ piece, downMm: at });
  return at + piece.heightMm;
}

/** Runs of pieces of which each keeps the next. */
function groupsOf(pieces: readonly Piece[]): readonly (readonly Piece[])[] {
  const groups: Piece[][] = [];
  let open = false;
  for (const piece of pieces) {
    const group = groups.at(-1);
    if (open && group !== undefined && piece.beginsPage !== true) group.push(piece);
    else groups.push([piece]);
    open = piece.keepsNext;
  }
  return groups;
}

function heightOf(group: readonly Piece[], down: number): number {
  const total = group.reduce((sum, piece) => sum + piece.beforeMm + piece.heightMm, 0);
  return down === 0 ? total - (group[0]?.beforeMm ?? 0) : total;
}
