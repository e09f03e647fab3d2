import {
  type BoardPart,
  type Contour,
  type CopperPiece,
  etchCompensated,
  type Hole,
  type Point,
} from '@sheetwave/geometry';
import { ApertureTable } from './apertures.ts';
import { type Frame, gridUnits, UNITS_PER_MM } from './frame.ts';
import { place, regionCommands } from './region.ts';

export type Side = 'top' | 'bottom';

/** Sides with copper, top first. */
export function copperSides(board: BoardPart): readonly Side[] {
  return (['top', 'bottom'] as const).filter((side) => board.copper[side].length > 0);
}

/** Top copper is layer 1 and bottom copper layer 2, also of a board that has only one of them. */
export function copperFileFunction(side: Side): string {
  return side === 'top' ? 'Copper,L1,Top' : 'Copper,L2,Bot';
}

/**
 * The artwork of one side, in paint order: round lands are flashed as pads, everything else is a filled region, and a
 * clear piece removes what lies below it. Grown by the undercut of the etching process.
 */
export function copperBody(board: BoardPart, side: Side, frame: Frame): readonly string[] {
  const apertures = new ApertureTable();
  const drawn = board.copper[side]
    .map((piece) => etchCompensated(piece, board.process.undercutMm))
    .map((piece) => ({ polarity: piece.polarity, lines: pieceCommands(piece, { board, frame, apertures }) }));
  return [...apertures.definitions, 'G75*', ...inPaintOrder(drawn)];
}

interface Context {
  readonly board: BoardPart;
  readonly frame: Frame;
  readonly apertures: ApertureTable;
}

function pieceCommands(piece: CopperPiece, context: Context): readonly string[] {
  const { contour, polarity, purpose } = piece;
  if (purpose === 'land' && polarity === 'dark' && contour.kind === 'circle') return flash(contour, context);
  const region = regionCommands(contour, context.frame);
  if (polarity === 'clear') return region;
  return ['%TA.AperFunction,Conductor*%', ...region, '%TD*%'];
}

function flash(land: Extract<Contour, { kind: 'circle' }>, { board, frame, apertures }: Context): readonly string[] {
  const hole = board.outline.holes.find(({ centre }) => sameGridPlace(centre, land.centre));
  const code = apertures.round(2 * land.radiusMm, padFunction(hole));
  return [`D${code}*`, `${place(frame.toGrid(land.centre))}D03*`];
}

/**
 * What a land is for (Gerber Layer Format Specification, "Aperture attributes", .AperFunction): a lead soldered into a
 * hole, a ring under a screw, or a flat pad defined by its copper.
 */
export function padFunction(hole: Hole | undefined): string {
  if (hole === undefined) return 'SMDPad,CuDef';
  return hole.purpose === 'fixing' || hole.purpose === 'mounting' ? 'WasherPad' : 'ComponentPad';
}

function sameGridPlace(a: Point, b: Point): boolean {
  return gridUnits(Math.abs(a.x - b.x)) <= 1 && gridUnits(Math.abs(a.y - b.y)) <= 1;
}

function inPaintOrder(
  drawn: readonly { readonly polarity: 'dark' | 'clear'; readonly lines: readonly string[] }[],
): readonly string[] {
  let polarity: 'dark' | 'clear' = 'dark';
  const lines: string[] = [];
  for (const piece of drawn) {
    if (piece.polarity !== polarity) lines.push(piece.polarity === 'dark' ? '%LPD*%' : '%LPC*%');
    polarity = piece.polarity;
    lines.push(...piece.lines);
  }
  return lines;
}

/** What a person who opens the artwork must know about its size. */
export function copperComments(board: BoardPart): readonly string[] {
  const { undercutMm } = board.process;
  if (!(undercutMm > 0)) return ['artwork at finished size; no etch compensation'];
  const grown = Number((undercutMm * UNITS_PER_MM).toFixed(0)) / UNITS_PER_MM;
  return [
    `artwork for etching: copper drawn ${grown} mm larger at each edge to make up for undercut`,
    'finished copper is smaller than drawn by that amount; do not compensate again',
  ];
}
