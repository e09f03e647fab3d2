import type { Assembly } from '@sheetwave/geometry';
import type { PartLine } from '../parts-list.ts';
import { boughtSheet, type SheetLine } from '../sheet-lines.ts';
import { mountLines } from './mount-lines.ts';
import { boughtLengths } from './rod-lengths.ts';

/** What is to be bought beside the parts that are bought as they are: sheets, lengths of rod and tube, and what holds the antenna up. */
export function shoppingList(
  { parts, design }: Pick<Assembly, 'parts' | 'design'>,
  sheets: readonly SheetLine[],
): readonly PartLine[] {
  return [...sheets.map(boughtSheet), ...boughtLengths(parts, massPerMetre), ...mountLines(design)];
}

/** kg/m of a rod or tube: section times density. */
function massPerMetre(stock: Parameters<Parameters<typeof boughtLengths>[1]>[0]): number {
  const outerMm = stock.kind === 'rod' ? stock.diameterMm : stock.outerMm;
  const boreMm = stock.kind === 'rod' ? 0 : stock.boreMm;
  return (Math.PI / 4) * (outerMm ** 2 - boreMm ** 2) * 1e-6 * stock.material.densityKgM3;
}
