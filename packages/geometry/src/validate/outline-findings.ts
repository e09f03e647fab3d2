import type { Finding } from '@sheetwave/design';
import type { BoardPart, PlatePart } from '../assembly.ts';
import { contains } from '../contour-measure.ts';
import { contourCrossings } from '../crossings.ts';
import { errorFinding } from '../finding.ts';
import type { Contour } from '../outline.ts';
import { contourPieces } from '../pieces.ts';
import { contourFindings } from './contour-findings.ts';
import { cornerFindings } from './corner-findings.ts';
import { holeFindings } from './hole-findings.ts';

/** What is wrong with the outline of a plate or board. Broken contours are reported alone: nothing else can be measured on them. */
export function outlineFindings(part: PlatePart | BoardPart): Finding[] {
  const path = `part ${part.id}`;
  const { outline, process } = part;
  const broken = [
    ...contourFindings(outline.outer, { path, what: 'outside', sense: 'ccw' }),
    ...outline.cutouts.flatMap((cutout, i) => contourFindings(cutout, { path, what: `cut-out ${i}`, sense: 'cw' })),
  ];
  if (broken.length > 0) return broken;
  return [
    ...cutoutFindings(outline.outer, outline.cutouts, path),
    ...holeFindings(outline, path, process),
    ...cornerFindings(outline, path, process),
  ];
}

function cutoutFindings(outer: Contour, cutouts: readonly Contour[], path: string): Finding[] {
  return cutouts.flatMap((cutout, i) => {
    if (!liesInside(cutout, outer)) return [misplaced(path, `cut-out ${i} reaches outside the part`)];
    const other = cutouts.slice(0, i).findIndex((earlier) => overlap(earlier, cutout));
    return other < 0 ? [] : [misplaced(path, `cut-outs ${other} and ${i} overlap`)];
  });
}

/** True when one contour lies within another and they do not cross. */
function liesInside(inner: Contour, outer: Contour): boolean {
  const [piece] = contourPieces(inner);
  return piece !== undefined && contains(outer, piece.from) && contourCrossings(inner, outer).length === 0;
}

/** True when two contours share area. */
export function overlap(a: Contour, b: Contour): boolean {
  return contourCrossings(a, b).length > 0 || liesInside(a, b) || liesInside(b, a);
}

function misplaced(path: string, value: string): Finding {
  return errorFinding('cut-out-misplaced', path, {
    value,
    allowed: 'instead of lying inside the part and apart from other cut-outs',
    remedy: 'change the sizes that make this cut-out',
  });
}
