import { type BoardPart, type CopperPiece, flattenContour } from '@sheetwave/geometry';
import * as clipper from 'clipper2-ts';
import { boxOf, type DrawnPage } from './pdf-trace.ts';

export type Paths = clipper.PathsD;

/** Decimals of a millimetre that Clipper2 computes with. */
const DECIMALS = 6;

/**
 * The copper that artwork must show so that etching leaves what the model has: the pieces painted in order, then all of it grown by
 * the undercut at once (the ground plane, which is not to grow, is grown with nothing). Built with Clipper2 from the model alone.
 */
export function artworkOf(board: BoardPart, side: 'top' | 'bottom'): Paths {
  const pieces = board.copper[side];
  const plane = pieces.filter(({ purpose }) => purpose === 'plane');
  const rest = painted(pieces.filter(({ purpose }) => purpose !== 'plane'));
  const clear = painted(
    pieces.filter(({ polarity }) => polarity === 'clear').map((one) => ({ ...one, polarity: 'dark' })),
  );
  const grown = (paths: Paths, by: number) =>
    clipper.inflatePathsD(paths, by, clipper.JoinType.Miter, clipper.EndType.Polygon, 4, DECIMALS);
  const ground = difference(painted(plane), grown(clear, -board.process.undercutMm));
  return combined(ground, grown(rest, board.process.undercutMm));
}

function painted(pieces: readonly CopperPiece[]): Paths {
  let image: Paths = [];
  for (const { contour, polarity } of pieces) {
    const ring = [flattenContour(contour).map(({ x, y }) => ({ x, y }))];
    image = polarity === 'dark' ? combined(image, ring) : difference(image, ring);
  }
  return image;
}

/** What the filled polygons of a page leave black within the box of its first `ground` or copper. */
export function inkOfPage(page: DrawnPage, within: clipper.RectD): Paths {
  let image: Paths = [];
  for (const { kind, shade, rings } of page.paths) {
    if (kind !== 'fill') continue;
    const paths = rings.map((ring) => ring.map(({ x, y }) => ({ x, y })));
    const ring = boxOf(rings.flat());
    if (ring.minX < within.left || ring.maxX > within.right || ring.minY < within.top || ring.maxY > within.bottom)
      continue;
    const solid = clipper.booleanOpD(clipper.ClipType.Union, paths, [], clipper.FillRule.EvenOdd, DECIMALS);
    image = shade < 0.5 ? combined(image, solid) : difference(image, solid);
  }
  return image;
}

const combined = (a: Paths, b: Paths): Paths =>
  clipper.booleanOpD(clipper.ClipType.Union, a, b, clipper.FillRule.NonZero, DECIMALS);
export const difference = (a: Paths, b: Paths): Paths =>
  clipper.booleanOpD(clipper.ClipType.Difference, a, b, clipper.FillRule.NonZero, DECIMALS);
export const areaOf = (paths: Paths): number => clipper.areaPathsD(paths);

/** Area that only one of two pictures has. */
export const mismatch = (a: Paths, b: Paths): number => areaOf(difference(a, b)) + areaOf(difference(b, a));

/** The picture with x and y multiplied, its left and upper ends put at the given place; its winding stays counter-clockwise. */
export function placed(
  paths: Paths,
  by: { readonly x: number; readonly y: number },
  at: { x: number; y: number },
): Paths {
  const moved = paths.map((path) => path.map(({ x, y }) => ({ x: x * by.x + at.x, y: y * by.y + at.y })));
  return by.x * by.y < 0 ? moved.map((path) => [...path].reverse()) : moved;
}
