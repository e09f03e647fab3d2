import { type Assembly, type Part, type Placement, reflectorUndersideMm } from '@sheetwave/geometry';

/** A piece and where it sits. */
export interface Piece {
  readonly part: Part;
  readonly placement: Placement;
}

/** Pieces drawn at one height of an exploded view. */
export interface Tier {
  readonly name: 'below' | 'reflector' | 'harness' | 'spacer' | 'patch' | 'front';
  readonly pieces: readonly Piece[];
}

/** The piece with its part looked up. Throws when a placement names a part that is not there. */
export function piecesOf(assembly: Assembly): readonly Piece[] {
  const parts = new Map(assembly.parts.map((part) => [part.id, part]));
  return assembly.placements.map((placement) => {
    const part = parts.get(placement.part);
    if (part === undefined)
      throw new Error(`a placement names the part ${placement.part}, which is not in the assembly`);
    return { part, placement };
  });
}

/** From the back to the front: what sits behind the reflector, the reflector, the harness, each layer, what holds the front. */
export function tiersOf(assembly: Assembly, pieces: readonly Piece[]): readonly Tier[] {
  const of = (keep: (piece: Piece) => boolean): readonly Piece[] => pieces.filter(keep);
  const layers = assembly.design.layers.flatMap((_, layer): readonly Tier[] => [
    { name: 'spacer', pieces: of((piece) => piece.placement.layer === layer && !isFlat(piece)) },
    { name: 'patch', pieces: of((piece) => piece.placement.layer === layer && isFlat(piece)) },
  ]);
  const rest = of((piece) => piece.placement.layer === undefined);
  const back = (piece: Piece) => piece.part.form === 'bought' && isBehind(assembly, piece);
  const front = (piece: Piece) => piece.part.form === 'bought' && !isBehind(assembly, piece);
  const tiers: readonly Tier[] = [
    { name: 'below', pieces: rest.filter(back) },
    { name: 'reflector', pieces: rest.filter((piece) => isFlat(piece) && isReflector(piece)) },
    { name: 'harness', pieces: rest.filter((piece) => piece.part.form !== 'bought' && !isReflector(piece)) },
    ...layers,
    { name: 'front', pieces: rest.filter(front) },
  ];
  return tiers.filter((tier) => tier.pieces.length > 0);
}

const isFlat = (piece: Piece): boolean => piece.part.form === 'plate' || piece.part.form === 'board';
const isReflector = (piece: Piece): boolean => isFlat(piece) && 'role' in piece.part && piece.part.role === 'reflector';

/** Behind the reflector: the cable with its connector, and every fastener that begins below the reflector's back. */
export function isBehind(assembly: Assembly, piece: Piece): boolean {
  const { part, placement } = piece;
  if (part.form !== 'bought') return false;
  if (part.item.kind === 'coax' || part.item.kind === 'connector') return true;
  return placement.at.z < reflectorUndersideMm(assembly.design) - 1e-9;
}
