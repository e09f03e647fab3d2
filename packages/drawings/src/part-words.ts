import type { Assembly, BoardPart, PlatePart } from '@sheetwave/geometry';
import { plain } from './number.ts';
import { flatSize } from './stock-words.ts';

/** A part that is cut from sheet or board and so has an outline to draw at 1:1. */
export type FlatPart = PlatePart | BoardPart;

/** Plates and boards of an assembly, in its order. */
export function flatParts(assembly: Assembly): readonly FlatPart[] {
  return assembly.parts.filter((part) => part.form === 'plate' || part.form === 'board');
}

export function thicknessOf(part: FlatPart): number {
  return part.form === 'plate' ? part.sheet.thicknessMm : part.laminate.thicknessMm;
}

/** What every sheet says about its part. */
export function titleRows(assembly: Assembly, part: FlatPart): readonly (readonly [string, string])[] {
  const { design } = assembly;
  const date: readonly (readonly [string, string])[] = design.date === undefined ? [] : [['date', design.date]];
  const stock = part.form === 'plate' ? part.sheet : part.laminate;
  return [
    ['design', design.name],
    ['revision', design.revision],
    ...date,
    ['material', stock.label],
    ['size', flatSize(part)],
    ['thickness', `${plain(thicknessOf(part), 3)} mm`],
    ['quantity', `${part.quantity} for one antenna`],
    ['view', 'seen from the front'],
  ];
}

/** First letter large, for headings. */
export const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
