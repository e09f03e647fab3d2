import { type Contour, offsetContour, type PlatePart } from '@sheetwave/geometry';
import { plain } from './number.ts';

/** The line to file to: its middle as it is drawn, and its width. */
export interface FinishLine {
  readonly outer: Contour;
  readonly cutouts: readonly Contour[];
  readonly widthMm: number;
  /** Where the finished edge lies in it. */
  readonly edge: 'middle' | 'inner';
}

const HAIRLINE_MM = 0.15;

/**
 * A hairline on the finished edge, or, where the process gives the width of a pen or scriber, a line of that width whose side toward the metal is the
 * finished edge: half the width outside the part, and inside its openings. Where an outline is too narrow for that it is the hairline.
 */
export function finishLine({ outline, process }: PlatePart): FinishLine {
  const hairline: FinishLine = { ...outline, widthMm: HAIRLINE_MM, edge: 'middle' };
  const half = process.lineWidthMm / 2;
  if (!(half > 0)) return hairline;
  try {
    const outer = offsetContour(outline.outer, half);
    const cutouts = outline.cutouts.map((cutout) => offsetContour(cutout, -half));
    return { outer, cutouts, widthMm: process.lineWidthMm, edge: 'inner' };
  } catch {
    return hairline;
  }
}

/** Where the builder finds the finished edge in the line. */
export function edgeWords({ edge, widthMm }: FinishLine): string {
  if (edge === 'middle') return 'The finished edge is the middle of the full line.';
  return `The full line is as wide as your pen, ${plain(widthMm)} mm: the finished edge is its side toward the metal. File the line away.`;
}
