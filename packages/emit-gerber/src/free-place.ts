import { type BoardPart, type Bounds, bounds, contains, distanceToContour, type Point } from '@sheetwave/geometry';

/** Ink keeps this far from the board's edge, bare copper and holes (common practice, no source). */
const CLEARANCE_MM = 0.4;

export interface Size {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** What legend ink must keep off: bare copper, radiators and lines, cut-outs and holes. The ground plane is not among them. */
export function inkObstacles(board: BoardPart): readonly Bounds[] {
  const radiating = board.copper.top.filter(({ purpose, polarity }) => polarity === 'dark' && purpose !== 'plane');
  const contours = [...board.maskOpenings.top, ...radiating.map(({ contour }) => contour), ...board.outline.cutouts];
  const holes = board.outline.holes.map(({ centre, diameterMm }) => ({
    minX: centre.x - diameterMm / 2,
    minY: centre.y - diameterMm / 2,
    maxX: centre.x + diameterMm / 2,
    maxY: centre.y + diameterMm / 2,
  }));
  return [...contours.map(bounds), ...holes];
}

/** True when a box of this size with its lower left corner at `corner` lies on the board and clear of all obstacles. */
export function isFree(board: BoardPart, box: Bounds, obstacles: readonly Bounds[]): boolean {
  return (
    obstacles.every((obstacle) => !near(box, obstacle)) && corners(box).every((corner) => isOnBoard(board, corner))
  );
}

export function boxAt(corner: Point, { widthMm, heightMm }: Size): Bounds {
  return { minX: corner.x, minY: corner.y, maxX: corner.x + widthMm, maxY: corner.y + heightMm };
}

function near(a: Bounds, b: Bounds): boolean {
  return (
    a.minX < b.maxX + CLEARANCE_MM &&
    b.minX < a.maxX + CLEARANCE_MM &&
    a.minY < b.maxY + CLEARANCE_MM &&
    b.minY < a.maxY + CLEARANCE_MM
  );
}

/** Enough for outlines that bulge outward everywhere, as boards do: rectangles, rounded or not, and discs. */
function isOnBoard(board: BoardPart, point: Point): boolean {
  const { outer } = board.outline;
  return contains(outer, point) && distanceToContour(outer, point) >= CLEARANCE_MM;
}

function corners({ minX, minY, maxX, maxY }: Bounds): readonly Point[] {
  return [
    { x: minX, y: minY },
    { x: maxX, y: minY },
    { x: maxX, y: maxY },
    { x: minX, y: maxY },
  ];
}
