import type { CopperPiece } from './assembly.ts';
import { offsetContour } from './offset.ts';

/**
 * A piece as artwork shows it, so that it comes out at its own size when etching eats `undercutMm` at every edge of
 * copper: dark pieces grow by it and clear pieces shrink. The ground plane keeps its size: its outside is of no electrical
 * use and must not reach the edge of the board. Throws when a clear piece is too narrow to shrink that much.
 */
export function etchCompensated(piece: CopperPiece, undercutMm: number): CopperPiece {
  if (!(undercutMm > 0) || piece.purpose === 'plane') return piece;
  const grow = piece.polarity === 'dark' ? undercutMm : -undercutMm;
  return { ...piece, contour: offsetContour(piece.contour, grow) };
}
