import type { InsideCorners, Process } from '@sheetwave/design';
import { circleContour } from './contours.ts';
import { relieveInsideCorners, roundInsideCorners } from './inside-corners.ts';
import { offsetContour } from './offset.ts';
import type { Contour, Outline } from './outline.ts';

/** What a cutter follows to leave the outline behind. */
export interface ToolPath {
  /** `finished-outline`: the machine makes up for its kerf. `cut-centre`: offset by half the kerf already. */
  readonly follows: 'finished-outline' | 'cut-centre';
  /** Half the kerf that is in the contours, mm; 0 for the finished outline. */
  readonly offsetMm: number;
  readonly outer: Contour;
  readonly cutouts: readonly Contour[];
  /** One circle for each hole of the outline, in its order. */
  readonly holes: readonly Contour[];
  /** What was done to sharp inside corners. */
  readonly corners: CornerReport;
}

export interface CornerReport {
  readonly rule: InsideCorners;
  /** Radius of the arcs, before the kerf is in them. */
  readonly radiusMm: number;
  readonly changed: number;
  /** Sharp inside corners that have no room for it. */
  readonly left: number;
}

export type ToolPathProcess = Pick<Process, 'kerfMm' | 'compensateKerf' | 'insideCorners' | 'smallestRadiusMm'>;

/**
 * The contours a cutter's centre follows. Sharp inside corners get a fillet of the smallest radius of the process, or a dog-bone relief,
 * as it says. With `compensateKerf` the outside grows and cut-outs and holes shrink by half the kerf, so that the part comes
 * out at its size; without, they are the finished outline. Outside corners stay sharp.
 * Throws when a hole or cut-out is too narrow for the kerf, or a relief would break through.
 */
export function toolPath(outline: Outline, process: ToolPathProcess): ToolPath {
  const offsetMm = process.compensateKerf ? process.kerfMm / 2 : 0;
  const radiusMm = cornerRadiusMm(process);
  const treat = treatment(process.insideCorners, radiusMm);
  const [outer, cutouts] = [treat(outline.outer), outline.cutouts.map(treat)];
  const all = [outer, ...cutouts];
  const holes = outline.holes.map((hole) => circleContour(hole.centre, hole.diameterMm / 2));
  return {
    follows: offsetMm > 0 ? 'cut-centre' : 'finished-outline',
    offsetMm,
    outer: offsetContour(outer.contour, offsetMm),
    cutouts: cutouts.map((cutout) => offsetContour(cutout.contour, -offsetMm)),
    holes: holes.map((hole) => offsetContour(hole, -offsetMm)),
    corners: {
      rule: process.insideCorners,
      radiusMm,
      changed: all.reduce((sum, one) => sum + one.changed, 0),
      left: all.reduce((sum, one) => sum + one.left, 0),
    },
  };
}

/**
 * No fillet is smaller than half the cut is wide. A relief as tight as that would vanish from the path of the cutter, which needs a
 * tenth more to go round it (common practice for milling; workshops say "tool radius and 10 %").
 */
function cornerRadiusMm({ insideCorners, smallestRadiusMm, kerfMm }: ToolPathProcess): number {
  return Math.max(smallestRadiusMm, (insideCorners === 'dog-bone' ? 1.1 : 1) * (kerfMm / 2));
}

function treatment(
  rule: InsideCorners,
  radiusMm: number,
): (contour: Contour) => { readonly contour: Contour; readonly changed: number; readonly left: number } {
  if (rule === 'as-drawn' || radiusMm === 0) return (contour) => ({ contour, changed: 0, left: 0 });
  return (contour) =>
    rule === 'round' ? roundInsideCorners(contour, radiusMm) : relieveInsideCorners(contour, radiusMm);
}
