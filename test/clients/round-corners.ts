import { flattenContour, type PlatePart, signedArea } from '@sheetwave/geometry';
import { EndType, inflatePathsD, JoinType } from 'clipper2-ts';

/**
 * Area in mm² of the outside of a plate as its process leaves it: where inside corners come out round, the outline grown and then shrunk by their
 * radius, by a polygon library (closing of a set; a corner that is grown round comes back sharp).
 */
export function areaWithRoundCorners({ outline, process }: PlatePart): number {
  const nominal = Math.abs(signedArea(outline.outer));
  const radius = Math.max(process.smallestRadiusMm, process.kerfMm / 2);
  if (process.insideCorners !== 'round' || radius === 0) return nominal;
  const polygon = flattenContour(outline.outer).map(({ x, y }) => ({ x, y }));
  const grow = (paths: { x: number; y: number }[][], by: number) =>
    inflatePathsD(paths, by, JoinType.Round, EndType.Polygon, 2, 6, 0.0005);
  return area(grow(grow([polygon], radius), -radius));
}

function area(paths: readonly (readonly { readonly x: number; readonly y: number }[])[]): number {
  const twice = paths.flatMap((path) =>
    path.map((p, i) => {
      const q = path[(i + 1) % path.length] ?? p;
      return p.x * q.y - q.x * p.y;
    }),
  );
  return Math.abs(twice.reduce((sum, value) => sum + value, 0)) / 2;
}
