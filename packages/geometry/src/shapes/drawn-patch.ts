import type { PatchShape } from '@sheetwave/design';
import { centroid, signedArea } from '../contour-measure.ts';
import type { Contour, Point } from '../outline.ts';
import { moveContour, reverseContour, turnContour } from '../transform.ts';
import type { PatchMetal } from './patch-metal.ts';

export type DrawnPatch = Extract<PatchShape, { kind: 'outline' }>;

/** The loop that encloses most is the outside, the others are cut-outs. */
export function sortedLoops({ loops }: DrawnPatch): { readonly outer: Contour; readonly inner: readonly Contour[] } {
  const area = (loop: Contour): number => Math.abs(signedArea(loop));
  const [outer, ...inner] = [...loops].sort((a, b) => area(b) - area(a));
  if (outer === undefined) throw new Error('a drawn outline has at least one loop');
  return { outer, inner };
}

/** A drawn outline turned and with its centre at (0, 0). The loops must enclose something and lie inside one another rightly. */
export function drawnMetal(shape: DrawnPatch): PatchMetal {
  const { outer, inner } = sortedLoops(shape);
  const turned = {
    outer: turnContour(running(outer, 'ccw'), shape.turnDeg),
    cutouts: inner.map((loop) => turnContour(running(loop, 'cw'), shape.turnDeg)),
  };
  const centre = shape.centre === 'origin' ? { x: 0, y: 0 } : metalCentroid(turned);
  const by = { x: 0 - centre.x, y: 0 - centre.y };
  return { outer: moveContour(turned.outer, by), cutouts: turned.cutouts.map((cutout) => moveContour(cutout, by)) };
}

function running(loop: Contour, sense: 'ccw' | 'cw'): Contour {
  return signedArea(loop) > 0 === (sense === 'ccw') ? loop : reverseContour(loop);
}

/** First moments of the outside less those of the cut-outs, over the area that is left. */
function metalCentroid({ outer, cutouts }: PatchMetal): Point {
  const parts = [outer, ...cutouts].map((contour, i) => ({
    area: (i === 0 ? 1 : -1) * Math.abs(signedArea(contour)),
    at: centroid(contour),
  }));
  const whole = parts.reduce((sum, { area }) => sum + area, 0);
  const along = (key: 'x' | 'y'): number => parts.reduce((sum, { area, at }) => sum + area * at[key], 0) / whole;
  return { x: along('x'), y: along('y') };
}
