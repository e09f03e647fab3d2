import { type Contour, contourPieces, type Piece, type Point } from '@sheetwave/geometry';
import type { Frame, GridPoint } from './frame.ts';

/** Readers resolve the centre of a shorter arc badly; the specification advises a straight draw below about 2 µm. */
const SHORTEST_ARC_UNITS = 2_000;

/** One step of a closed path on the grid. `centre` is given for arcs. */
interface Step {
  readonly to: GridPoint;
  readonly arc: { readonly centre: GridPoint; readonly sense: 'ccw' | 'cw' } | undefined;
}

/** A filled area as a region statement (`G36` to `G37`). */
export function regionCommands(contour: Contour, frame: Frame): readonly string[] {
  return ['G36*', ...outlineCommands(contour, frame), 'G37*'];
}

/**
 * A closed path in whole grid units that ends exactly where it starts: a move, then draws and arcs with `G75` set before
 * them. Arcs of more than half a turn are given in two. Throws when nothing is left of the path on the grid.
 */
export function outlineCommands(contour: Contour, frame: Frame): readonly string[] {
  const { start, steps } = gridPath(contour, frame);
  if (steps.length < 2) throw new Error('Gerber: a contour smaller than the grid');
  const lines = [`${place(start)}D02*`];
  let here = start;
  let mode = '';
  for (const step of steps) {
    const wanted = step.arc === undefined ? 'G01*' : step.arc.sense === 'ccw' ? 'G03*' : 'G02*';
    if (wanted !== mode) lines.push(wanted);
    mode = wanted;
    lines.push(`${place(step.to)}${offset(here, step)}D01*`);
    here = step.to;
  }
  return lines;
}

function gridPath(contour: Contour, frame: Frame): { readonly start: GridPoint; readonly steps: readonly Step[] } {
  const pieces = contourPieces(contour).flatMap(halfTurns);
  const first = pieces[0];
  if (first === undefined) throw new Error('Gerber: a contour without segments');
  const start = frame.toGrid(first.from);
  const steps: Step[] = [];
  let here = start;
  for (const [index, piece] of pieces.entries()) {
    const to = index === pieces.length - 1 ? start : frame.toGrid(piece.to);
    if (to.x === here.x && to.y === here.y) continue;
    steps.push(gridStep(piece, { here, to }, frame));
    here = to;
  }
  return { start, steps };
}

function gridStep(piece: Piece, { here, to }: { here: GridPoint; to: GridPoint }, frame: Frame): Step {
  const short = Math.hypot(to.x - here.x, to.y - here.y) < SHORTEST_ARC_UNITS;
  if (piece.kind === 'line' || short) return { to, arc: undefined };
  return { to, arc: { centre: frame.toGrid(piece.centre), sense: piece.sense } };
}

/** A whole circle, or an arc of more than half a turn, in two equal arcs. */
function halfTurns(piece: Piece): readonly Piece[] {
  if (piece.kind === 'line' || Math.abs(piece.sweepRad) <= Math.PI * (1 + 1e-9)) return [piece];
  const { centre, radiusMm, startRad } = piece;
  const sweepRad = piece.sweepRad / 2;
  const middleRad = startRad + sweepRad;
  const middle: Point = {
    x: centre.x + radiusMm * Math.cos(middleRad),
    y: centre.y + radiusMm * Math.sin(middleRad),
  };
  return [
    { ...piece, to: middle, sweepRad },
    { ...piece, from: middle, startRad: middleRad, sweepRad },
  ];
}

function offset(here: GridPoint, { arc }: Step): string {
  return arc === undefined ? '' : `I${arc.centre.x - here.x}J${arc.centre.y - here.y}`;
}

export function place({ x, y }: GridPoint): string {
  return `X${x}Y${y}`;
}
