import type { EtchFilm } from '@sheetwave/design';
import {
  type BoardPart,
  type Bounds,
  bounds,
  boundsOfPoints,
  type Contour,
  flattenContour,
  type Point,
} from '@sheetwave/geometry';
import { grow } from './box.ts';
import type { Stretch } from './print-check.ts';

export type BoardSide = 'top' | 'bottom';

/** Round edges are drawn as chords that leave them by less than this, mm: two different stretches leave no arc round. */
const CHORD_MM = 0.001;
const MARKS_OUT_MM = 9;

/** Takes a board's own coordinates (seen from in front) to those of the film of one of its sides. */
export interface FilmFrame {
  readonly stretch: Stretch;
  /** True when left and right of the board, seen from in front, are exchanged on the film. */
  readonly exchanged: boolean;
  /** Box of the board on the film. */
  readonly board: Bounds;
  /** Where register marks go: the same points of the board on the films of both its sides. The first is the lower left one. */
  readonly marks: readonly Point[];
  point(point: Point): Point;
  ring(contour: Contour): readonly Point[];
}

/**
 * A film that is not mirrored reads as the finished side does for somebody who looks at it: the top as the board's own
 * coordinates have it, the bottom with left and right exchanged. Mirroring exchanges them once more.
 */
export function filmFrame(board: BoardPart, side: BoardSide, film: EtchFilm): FilmFrame {
  const exchanged = (side === 'top') === film.mirror;
  const stretch = { x: 100 / film.measuredMm.x, y: 100 / film.measuredMm.y };
  const point = ({ x, y }: Point): Point => ({ x: (exchanged ? -x : x) * stretch.x, y: y * stretch.y });
  const edges = bounds(board.outline.outer);
  return {
    stretch,
    exchanged,
    board: boundsOfPoints(cornersOf(edges).map(point)),
    marks: cornersOf(grow(edges, MARKS_OUT_MM)).map(point),
    point,
    ring: (contour) => flattenContour(contour, { toleranceMm: CHORD_MM }).map(point),
  };
}

/** From the lower left one, counter-clockwise. */
function cornersOf({ minX, minY, maxX, maxY }: Bounds): readonly Point[] {
  return [
    { x: minX, y: minY },
    { x: maxX, y: minY },
    { x: maxX, y: maxY },
    { x: minX, y: maxY },
  ];
}
