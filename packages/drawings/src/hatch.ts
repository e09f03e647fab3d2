import {
  type BoardPart,
  bounds,
  type Contour,
  type CopperPiece,
  circleContour,
  contains,
  distanceToContour,
  type Point,
} from '@sheetwave/geometry';
import { heightOf, widthOf } from './box.ts';
import type { BoardSide } from './film-frame.ts';

/** Clear dashes: short, thin, far apart and along the current, so that the metal stays one piece and carries on as before. */
export const DASH = { lengthMm: 4, widthMm: 0.2, alongMm: 6.5, acrossMm: 3 } as const;
const KEEP_OFF_MM = 1.5;
/** Smaller areas than this stay solid: toner holds on them. */
const LEAST_MM = 8;

/** A dash by its two ends, in the board's own coordinates. */
export type Dash = readonly [Point, Point];

/**
 * Where a side's large areas are broken: within patches and the ground plane, clear of every edge, hole and line, and of what the
 * lines of the other side have below them.
 */
export function hatchDashes(board: BoardPart, side: BoardSide, along: 'x' | 'y'): readonly Dash[] {
  const here = board.copper[side];
  const lines = board.copper[side === 'top' ? 'bottom' : 'top'].filter(({ purpose }) => purpose === 'line');
  const holes = [
    ...board.outline.holes.map((hole) => circleContour(hole.centre, hole.diameterMm / 2)),
    ...board.outline.cutouts,
  ];
  return here.filter(isLargeArea).flatMap((piece) => {
    const others = here.filter((other) => other !== piece && !isUnder(other, piece, here));
    const keepOff = [
      ...others.map(({ contour }) => contour),
      ...holes,
      ...(piece.purpose === 'plane' ? lines.map(({ contour }) => contour) : []),
    ];
    return dashesIn(piece.contour, along).filter((dash) => isFree(dash, piece.contour, keepOff));
  });
}

function isLargeArea({ purpose, polarity, contour }: CopperPiece): boolean {
  const box = bounds(contour);
  const large = Math.min(widthOf(box), heightOf(box)) >= LEAST_MM;
  return polarity === 'dark' && (purpose === 'patch' || purpose === 'plane') && large;
}

/** Dark metal that is painted before the piece and has nothing to say about it. */
function isUnder(other: CopperPiece, piece: CopperPiece, order: readonly CopperPiece[]): boolean {
  return other.purpose === 'plane' && piece.purpose === 'patch' && order.indexOf(other) < order.indexOf(piece);
}

/** A regular pattern, every other row moved by half its step. */
function dashesIn(contour: Contour, along: 'x' | 'y'): readonly Dash[] {
  const box = bounds(contour);
  const [from, to] = along === 'x' ? [box.minX, box.maxX] : [box.minY, box.maxY];
  const [low, high] = along === 'x' ? [box.minY, box.maxY] : [box.minX, box.maxX];
  const rows = steps(low, high, { step: DASH.acrossMm, firstMm: DASH.acrossMm / 2 });
  return rows.flatMap((across, row) =>
    steps(from, to, { step: DASH.alongMm, firstMm: row % 2 === 0 ? 1 : 1 - DASH.alongMm / 2 }).map((start): Dash => {
      const at = (place: number): Point => (along === 'x' ? { x: place, y: across } : { x: across, y: place });
      return [at(start), at(start + DASH.lengthMm)];
    }),
  );
}

function steps(from: number, to: number, by: { readonly step: number; readonly firstMm: number }): readonly number[] {
  const count = Math.max(0, Math.ceil((to - from - by.firstMm) / by.step));
  return Array.from({ length: count }, (_, index) => from + by.firstMm + index * by.step);
}

function isFree(dash: Dash, within: Contour, keepOff: readonly Contour[]): boolean {
  return pointsOf(dash).every(
    (point) =>
      contains(within, point) &&
      distanceToContour(within, point) >= KEEP_OFF_MM &&
      keepOff.every((other) => !contains(other, point) && distanceToContour(other, point) >= KEEP_OFF_MM),
  );
}

/** Five places from end to end: closer together than anything on a board is narrow. */
function pointsOf([from, to]: Dash): readonly Point[] {
  return [0, 0.25, 0.5, 0.75, 1].map((part) => ({
    x: from.x + (to.x - from.x) * part,
    y: from.y + (to.y - from.y) * part,
  }));
}
