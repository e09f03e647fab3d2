import type { PatchShape } from '@sheetwave/design';
import { bounds, contains, distanceToContour } from '../contour-measure.ts';
import { circleContour, polygonContour } from '../contours.ts';
import { flattenContour } from '../flatten.ts';
import type { Contour, Point } from '../outline.ts';
import { drawnMetal } from './drawn-patch.ts';
import { rectangleCutouts, rectangleOuter } from './rectangle-patch.ts';

/** The metal of a patch: inside `outer` (counter-clockwise) and outside every cut-out (clockwise). */
export interface PatchMetal {
  readonly outer: Contour;
  readonly cutouts: readonly Contour[];
}

/** The metal of a patch in its own plane: resonant length along y, fed edge below, centre at (0, 0). */
export function patchMetal(shape: PatchShape): PatchMetal {
  const centre = { x: 0, y: 0 };
  switch (shape.kind) {
    case 'rectangle':
      return { outer: rectangleOuter(shape), cutouts: rectangleCutouts(shape) };
    case 'circle':
      return { outer: circleContour(centre, shape.diameterMm / 2), cutouts: [] };
    case 'ring':
      return {
        outer: circleContour(centre, shape.outerMm / 2),
        cutouts: [circleContour(centre, shape.innerMm / 2)],
      };
    case 'triangle':
      return { outer: triangleContour(shape.sideMm), cutouts: [] };
    case 'outline':
      return drawnMetal(shape);
  }
}

/** An equilateral triangle on its side, its centroid at (0, 0): a third of its height above the side. */
function triangleContour(sideMm: number): Contour {
  const third = sideMm / (2 * Math.sqrt(3));
  return polygonContour([
    { x: -sideMm / 2, y: -third },
    { x: sideMm / 2, y: -third },
    { x: 0, y: 2 * third },
  ]);
}

/** How far below the centre the fed edge lies: where the centre line first meets metal from below, mm. */
export function feedEdgeMm(shape: PatchShape): number {
  switch (shape.kind) {
    case 'rectangle':
      return shape.lengthMm / 2;
    case 'circle':
      return shape.diameterMm / 2;
    case 'ring':
      return shape.outerMm / 2;
    case 'triangle':
      return shape.sideMm / (2 * Math.sqrt(3));
    case 'outline': {
      const [first] = centreLineSpans(patchMetal(shape));
      if (first === undefined) throw new Error('a patch without metal on its centre line has no fed edge');
      return 0 - first[0];
    }
  }
}

/** Stretches of metal on the vertical centre line, from below upward, as [from, to] in y; within 0.0005 mm on arcs. */
export function centreLineSpans({ outer, cutouts }: PatchMetal): readonly (readonly [number, number])[] {
  const ys = [outer, ...cutouts].flatMap(crossingsOfCentreLine).sort((a, b) => a - b);
  return ys.flatMap((y, i): (readonly [number, number])[] => {
    const to = ys[i + 1];
    return i % 2 === 0 && to !== undefined && to > y ? [[y, to]] : [];
  });
}

/** Every side is open at its right end, so that a corner on the line counts once. */
function crossingsOfCentreLine(contour: Contour): readonly number[] {
  const points = flattenContour(contour);
  return points.flatMap((from, i) => {
    const to = points[(i + 1) % points.length] ?? from;
    if (from.x <= 0 === to.x <= 0) return [];
    return [from.y + ((to.y - from.y) * (0 - from.x)) / (to.x - from.x)];
  });
}

/** True when a whole disc lies on metal. */
export function discOnMetal(
  { outer, cutouts }: PatchMetal,
  disc: { readonly centre: Point; readonly radiusMm: number },
): boolean {
  const { centre, radiusMm } = disc;
  if (!contains(outer, centre) || cutouts.some((cutout) => contains(cutout, centre))) return false;
  return [outer, ...cutouts].every((contour) => distanceToContour(contour, centre) >= radiusMm - 1e-9);
}

/** Farthest the metal reaches from the centre line and from the line across it, mm. */
export function metalReach(metal: PatchMetal): { readonly acrossMm: number; readonly alongMm: number } {
  const { minX, maxX, minY, maxY } = bounds(metal.outer);
  return { acrossMm: Math.max(-minX, maxX), alongMm: Math.max(-minY, maxY) };
}
