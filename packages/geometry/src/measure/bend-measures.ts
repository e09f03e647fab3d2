import type { Assembly, PlatePart } from '../assembly.ts';
import { bounds } from '../contour-measure.ts';
import type { Measurement } from '../measure.ts';
import { foldedReflector } from '../reflector/folded.ts';

/** Where the bend lines lie on the flat sheet: upright ones from its left edge, level ones from its bottom edge. */
export function bendMeasures(part: PlatePart): Measurement[] {
  const box = bounds(part.outline.outer);
  const lines = part.marks.flatMap((mark) => (mark.kind === 'line' && mark.purpose === 'bend' ? [mark] : []));
  return lines.map(({ from, to }, index) => {
    const upright = Math.abs(from.x - to.x) < 1e-9;
    return {
      part: part.id,
      what: `bend line ${index + 1} from ${upright ? 'left' : 'bottom'} edge`,
      valueMm: upright ? from.x - box.minX : from.y - box.minY,
      count: 1,
    };
  });
}

/** The reflector after bending: its face over the folds, and the height of its folded edges over all. */
export function foldMeasures(assembly: Assembly): Measurement[] {
  const folded = foldedReflector(assembly);
  if (!folded) return [];
  const face = bounds(folded.face);
  const one = (what: string, valueMm: number, count = 1): Measurement => ({ part: 'reflector', what, valueMm, count });
  const heights = folded.edges.map(({ lowMm, highMm }) => highMm - lowMm);
  return [
    one('face width over the folds', face.maxX - face.minX),
    one('face height over the folds', face.maxY - face.minY),
    one('height of a folded edge', heights[0] ?? 0, heights.length),
  ];
}
