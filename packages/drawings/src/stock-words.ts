import type { Part } from '@sheetwave/geometry';
import { bounds } from '@sheetwave/geometry';
import { plain } from './number.ts';

const mm = (value: number): string => `${plain(value)} mm`;

/** What a part is made of and how large it is, in a few words: the small lines of a callout. */
export function sizeWords(part: Part): string {
  switch (part.form) {
    case 'plate':
      return `${flatSize(part)}${bentWords(part)}, ${part.sheet.material.name} ${mm(part.sheet.thicknessMm)}`;
    case 'board':
      return `${flatSize(part)}, laminate ${plain(part.laminate.thicknessMm, 3)} mm`;
    case 'rod':
      return `Ø ${mm(part.rod.diameterMm)}, blank ${mm(Math.round(part.developedLengthMm * 10) / 10)}`;
    case 'tube':
      return `Ø ${plain(part.tube.outerMm)} × ${mm(part.lengthMm)}`;
    case 'printed-spacer':
      return `Ø ${plain(part.outerMm)} × ${mm(part.heightMm)}, printed`;
    case 'bought':
      return part.lengthMm === undefined ? 'bought' : `${mm(Math.round(part.lengthMm))} long`;
  }
}

/** A sheet that is bent later is larger as it is cut. */
function bentWords({ marks }: Extract<Part, { form: 'plate' }>): string {
  return marks.some(({ purpose }) => purpose === 'bend') ? ' before bending' : '';
}

/** Outside size of a sheet or board. */
export function flatSize(part: Extract<Part, { form: 'plate' | 'board' }>): string {
  const { outer } = part.outline;
  if (outer.kind === 'circle') return `Ø ${mm(2 * outer.radiusMm)}`;
  const box = bounds(outer);
  return `${plain(box.maxX - box.minX)} × ${mm(box.maxY - box.minY)}`;
}

/** `× 4` for several of a kind. */
export const timesWords = (quantity: number): string => `${quantity} needed`;
