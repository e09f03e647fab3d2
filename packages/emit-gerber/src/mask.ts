import type { BoardPart } from '@sheetwave/geometry';
import type { Side } from './copper.ts';
import type { Frame } from './frame.ts';
import { regionCommands } from './region.ts';

/**
 * The openings of the solder mask of one side. The file is declared negative: what is drawn is where there is no mask.
 * A board without openings gives an empty image, which means that the side is covered.
 */
export function maskBody(board: BoardPart, side: Side, frame: Frame): readonly string[] {
  return ['G75*', ...board.maskOpenings[side].flatMap((opening) => regionCommands(opening, frame))];
}

export function maskComments(board: BoardPart, side: Side): readonly string[] {
  const count = board.maskOpenings[side].length;
  if (count === 0) return ['no openings: this side is covered with solder mask'];
  return [`drawn areas are free of solder mask: ${count} opening${count === 1 ? '' : 's'}`];
}
