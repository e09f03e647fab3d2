import type { Process } from '@sheetwave/design';
import { circleContour } from './contours.ts';
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
}

/**
 * The contours a cutter's centre follows. With `compensateKerf` the outside grows and cut-outs and holes shrink by half the kerf, so
 * that the part comes out at its size; without, they are the finished outline. Corners stay sharp.
 * Throws when a hole or cut-out is too narrow for the kerf.
 */
export function toolPath(outline: Outline, process: Pick<Process, 'kerfMm' | 'compensateKerf'>): ToolPath {
  const offsetMm = process.compensateKerf ? process.kerfMm / 2 : 0;
  const holes = outline.holes.map((hole) => circleContour(hole.centre, hole.diameterMm / 2));
  return {
    follows: offsetMm > 0 ? 'cut-centre' : 'finished-outline',
    offsetMm,
    outer: offsetContour(outline.outer, offsetMm),
    cutouts: outline.cutouts.map((cutout) => offsetContour(cutout, -offsetMm)),
    holes: holes.map((hole) => offsetContour(hole, -offsetMm)),
  };
}
