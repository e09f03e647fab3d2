import { bounds, type Part } from '@sheetwave/geometry';
import { numberText } from './number-text.ts';
import { type PartFacts, partFacts } from './part-facts.ts';

/** One line of the parts list. */
export interface PartLine extends PartFacts {
  readonly id: string;
  readonly name: string;
  readonly quantity: number;
  /** Mass of one piece in grams. */
  readonly massG: number;
  /** Files of the pack that show this part alone, by path. */
  readonly files: readonly string[];
  readonly note: string;
  /** Length of one, of what is sold by length. */
  readonly lengthMm?: number;
  /** Area of the rectangle that one is cut from, of what is sold by area. */
  readonly areaMm2?: number;
}

export interface PartLinesInput {
  readonly parts: readonly Part[];
  readonly files: readonly { readonly path: string; readonly part: string | undefined }[];
  /** Mass of one piece in kilograms. */
  readonly massKg: (part: Part) => number;
}

/** The parts in the order of the assembly, each with its files. */
export function partLines({ parts, files, massKg }: PartLinesInput): PartLine[] {
  return parts.map((part) => ({
    id: part.id,
    name: part.name,
    quantity: part.quantity,
    ...partFacts(part),
    massG: Number(numberText(massKg(part) * 1000, 3)),
    files: files.filter((file) => file.part === part.id).map((file) => file.path),
    note: noteOf(part),
    ...measureOf(part),
  }));
}

function measureOf(part: Part): Pick<PartLine, 'lengthMm' | 'areaMm2'> {
  if (part.form === 'bought') return part.lengthMm === undefined ? {} : { lengthMm: part.lengthMm };
  if (part.form !== 'board') return {};
  const box = bounds(part.outline.outer);
  return { areaMm2: (box.maxX - box.minX) * (box.maxY - box.minY) };
}

function noteOf(part: Part): string {
  switch (part.form) {
    case 'plate':
      return allowanceNote(part.process.allowanceMm);
    case 'board':
      return part.laminate.lossy ? 'This board material loses several decibels in a patch.' : '';
    case 'rod':
      return part.bends.length > 0 ? 'Cut the blank to length before bending; summary.md lists the bends.' : '';
    case 'printed-spacer':
      return 'Print without scaling; the height sets the resonance.';
    case 'tube':
    case 'bought':
      return '';
  }
}

function allowanceNote(allowanceMm: number): string {
  if (allowanceMm === 0) return '';
  return `Rough cut ${numberText(allowanceMm)} mm outside the line, then file to the line.`;
}
