import type { Assembly } from '@sheetwave/geometry';
import { effectiveLength, type PatchArray } from '@sheetwave/rf';
import { asRectangle, type DrivenPatch, lengthIsVertical } from './driven-patch.ts';

/** The driven patches as an array of slots: what the pattern formulas know of the antenna. */
export function patchArray({ design }: Assembly, driven: DrivenPatch, freqHz: number): PatchArray {
  const { rows, columns, rowPitchMm, columnPitchMm } = design.lattice;
  const rectangle = asRectangle(driven);
  // A single row or column has no pitch; one wavelength stands in, which no formula looks at when the count is 1.
  const vertical = { count: rows, pitchM: rows > 1 ? rowPitchMm / 1000 : 299_792_458 / freqHz };
  const horizontal = { count: columns, pitchM: columns > 1 ? columnPitchMm / 1000 : 299_792_458 / freqHz };
  const upright = lengthIsVertical(design);
  const lengthM = driven.shape === 'circle' ? rectangle.lengthM : effectiveLength(rectangle);
  return {
    patch: { widthM: rectangle.widthM, lengthM },
    freqHz,
    alongLength: upright ? vertical : horizontal,
    alongWidth: upright ? horizontal : vertical,
  };
}
