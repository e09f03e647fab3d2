import { offsetContour } from './offset.ts';
import type { Contour } from './outline.ts';

/**
 * The line to saw along, `allowanceMm` outside the finish line.
 * Undefined when there is no allowance, and when the outline is so narrow inside (a slot in from its edge) that the outside line would
 * run into itself: then there is no line to draw and the part is sawn by eye outside the finish line.
 */
export function sawLine(outer: Contour, allowanceMm: number): Contour | undefined {
  if (!(allowanceMm > 0)) return undefined;
  try {
    return offsetContour(outer, allowanceMm);
  } catch {
    return undefined;
  }
}
