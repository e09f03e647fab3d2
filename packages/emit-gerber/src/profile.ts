import type { BoardPart } from '@sheetwave/geometry';
import { ApertureTable } from './apertures.ts';
import type { Frame } from './frame.ts';
import { outlineCommands } from './region.ts';

/** Width of the drawn line; the board's edge is its centre. */
const LINE_MM = 0.1;

/** The edge of the board and its cut-outs as closed lines. Round holes are drilled and stay in the drill files. */
export function profileBody(board: BoardPart, frame: Frame): readonly string[] {
  const apertures = new ApertureTable();
  const code = apertures.round(LINE_MM, 'Profile');
  const contours = [board.outline.outer, ...board.outline.cutouts];
  const paths = contours.flatMap((contour) => outlineCommands(contour, frame));
  return [...apertures.definitions, 'G75*', `D${code}*`, ...paths];
}
