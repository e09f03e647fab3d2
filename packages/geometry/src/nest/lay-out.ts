import { type Block, blocksOf, type Grouping, type Kind } from './blocks.ts';
import { type PackedRect, packRectangles, type Room } from './pack-rectangles.ts';

/** One piece in a room: the lower left corner of its box as it lies. */
export interface LaidPiece {
  /** Place of its kind in the list that was given. */
  readonly of: number;
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}

/** Every piece of every kind in as many equal rooms as it takes, grouped as said. Throws when a kind fits into no room. */
export function layOut(kinds: readonly Kind[], room: Room, grouping: Grouping): readonly (readonly LaidPiece[])[] {
  const blocks = blocksOf(kinds, room, grouping);
  return packRectangles(blocks, room).map((bin) =>
    bin.flatMap((packed) => {
      const block = blocks[packed.index];
      const kind = block && kinds[block.of];
      if (block === undefined || kind === undefined) throw new Error(`nesting: no block ${packed.index}`);
      return piecesOf(block, kind, { ...packed, gapMm: room.gapMm });
    }),
  );
}

/** A block that was turned has its columns upward. */
function piecesOf(block: Block, kind: Kind, at: PackedRect & { readonly gapMm: number }): readonly LaidPiece[] {
  const turned = block.piecesTurned !== at.turned;
  const [wide, high] = turned ? [kind.heightMm, kind.widthMm] : [kind.widthMm, kind.heightMm];
  const [across, up] = at.turned ? [block.rows, block.columns] : [block.columns, block.rows];
  return Array.from({ length: across * up }, (_, i) => ({
    of: block.of,
    x: at.x + (i % across) * (wide + at.gapMm),
    y: at.y + Math.floor(i / across) * (high + at.gapMm),
    turned,
  }));
}
