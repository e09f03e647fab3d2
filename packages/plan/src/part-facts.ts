import { type BoughtPart, bounds, type Outline, type Part } from '@sheetwave/geometry';
import { numberText } from './number-text.ts';

/** What a parts list says about a part besides its id and quantity. */
export interface PartFacts {
  /** Id of the stock it is made of or is. */
  readonly stock: string;
  readonly label: string;
  /** As a builder reads it: `24 x 27.3 x 0.8 mm`. */
  readonly size: string;
  readonly process: string;
}

/** Describes a part for a parts list. */
export function partFacts(part: Part): PartFacts {
  switch (part.form) {
    case 'plate': {
      const { sheet, process } = part;
      return {
        stock: sheet.id,
        label: sheet.label,
        size: flatSize(part.outline, sheet.thicknessMm),
        process: process.label,
      };
    }
    case 'board': {
      const { laminate, process } = part;
      const thicknessMm = laminate.thicknessMm + copperSides(part) * laminate.copperMm;
      return {
        stock: laminate.id,
        label: laminate.label,
        size: flatSize(part.outline, thicknessMm),
        process: process.label,
      };
    }
    case 'rod': {
      const size = `diameter ${mm(part.rod.diameterMm)}, cut ${mm(part.developedLengthMm)}${bendText(part.bends.length)}`;
      return {
        stock: part.rod.id,
        label: part.rod.label,
        size,
        process: part.bends.length > 0 ? 'cut and bent' : 'cut',
      };
    }
    case 'tube':
      return { stock: part.tube.id, label: part.tube.label, size: tubeSize(part.tube, part.lengthMm), process: 'cut' };
    case 'printed-spacer': {
      const size = tubeSize(part, part.heightMm);
      return { stock: '', label: 'printing plastic', size, process: 'printed' };
    }
    case 'bought':
      return { stock: part.item.id, label: part.item.label, size: boughtSize(part), process: 'bought' };
  }
}

function copperSides(part: Extract<Part, { form: 'board' }>): number {
  return (part.copper.top.length > 0 ? 1 : 0) + (part.copper.bottom.length > 0 ? 1 : 0);
}

function flatSize(outline: Outline, thicknessMm: number): string {
  const thick = numberText(thicknessMm, 3);
  if (outline.outer.kind === 'circle') return `diameter ${numberText(2 * outline.outer.radiusMm)} x ${thick} mm`;
  const box = bounds(outline.outer);
  return `${numberText(box.maxX - box.minX)} x ${numberText(box.maxY - box.minY)} x ${thick} mm`;
}

function tubeSize(tube: { readonly outerMm: number; readonly boreMm: number }, lengthMm: number): string {
  return `outside ${mm(tube.outerMm)}, bore ${mm(tube.boreMm)}, length ${mm(lengthMm)}`;
}

function bendText(count: number): string {
  if (count === 0) return '';
  return count === 1 ? ', 1 bend' : `, ${count} bends`;
}

function boughtSize(part: BoughtPart): string {
  const { item } = part;
  switch (item.kind) {
    case 'spacer':
      return `${item.thread}, body ${mm(item.bodyMm)}`;
    case 'screw':
      return `${item.thread} x ${mm(item.lengthMm)}`;
    case 'nut':
    case 'washer':
      return item.thread;
    case 'coax':
      return part.lengthMm === undefined ? '' : `length ${mm(part.lengthMm)}`;
    case 'connector':
      return `${numberText(item.impedanceOhm)} ohm`;
  }
}

const mm = (value: number) => `${numberText(value)} mm`;
