import type { BoardPart, PlatePart } from '../assembly.ts';

/** Thickness of a sheet, or of a board with copper on each side that has some, mm. */
export function bodyThicknessMm(part: PlatePart | BoardPart): number {
  if (part.form === 'plate') return part.sheet.thicknessMm;
  const sides = [part.copper.top, part.copper.bottom].filter((side) => side.length > 0).length;
  return part.laminate.thicknessMm + sides * part.laminate.copperMm;
}
