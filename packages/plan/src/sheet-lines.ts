import type { NestedSheet } from '@sheetwave/geometry';
import { numberText } from './number-text.ts';
import type { PartLine } from './parts-list.ts';

/** Sheets of one stock, process and size that are to be bought. */
export interface SheetLine {
  /** `sheet-brass-0.5-1`: with the number of the first one, as its cut file. */
  readonly id: string;
  readonly stock: string;
  readonly label: string;
  readonly process: string;
  readonly quantity: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Mass of one in grams. */
  readonly massG: number;
  /** Parts cut from all of them. */
  readonly pieces: number;
  /** What is left of all of them, mm²; openings in parts not counted. */
  readonly leftMm2: number;
  /** The largest rectangle left on any of them, mm; undefined for none. */
  readonly largestLeft: { readonly widthMm: number; readonly heightMm: number } | undefined;
  readonly files: readonly string[];
}

/** The sheets to buy, equal ones together, in the order of their numbers. */
export function sheetLines(sheets: readonly NestedSheet[]): SheetLine[] {
  const groups = new Map<string, NestedSheet[]>();
  for (const sheet of sheets) {
    const key = [sheet.sheet.id, sheet.process.id, sheet.widthMm, sheet.heightMm].join(' ');
    groups.set(key, [...(groups.get(key) ?? []), sheet]);
  }
  return [...groups.values()].flatMap(lineOf);
}

function lineOf(sheets: readonly NestedSheet[]): SheetLine[] {
  const [first] = sheets;
  if (first === undefined) return [];
  const { sheet, process, widthMm, heightMm, number } = first;
  const massG = widthMm * heightMm * sheet.thicknessMm * sheet.material.densityKgM3 * 1e-6;
  return [
    {
      id: `sheet-${sheet.id}-${number}`,
      stock: sheet.id,
      label: sheet.label,
      process: process.label,
      quantity: sheets.length,
      widthMm,
      heightMm,
      massG: Number(numberText(massG, 3)),
      pieces: sheets.reduce((sum, one) => sum + one.pieces.length, 0),
      leftMm2: sheets.reduce((sum, one) => sum + one.leftMm2, 0),
      largestLeft: largestOf(sheets),
      files: sheets.map((one) => `cut/sheet-${sheet.id}-${one.number}.dxf`),
    },
  ];
}

function largestOf(sheets: readonly NestedSheet[]): SheetLine['largestLeft'] {
  const left = sheets.flatMap(({ largestLeft: box }) =>
    box === undefined ? [] : [{ widthMm: box.maxX - box.minX, heightMm: box.maxY - box.minY }],
  );
  return left.reduce<SheetLine['largestLeft']>(
    (best, one) => (best === undefined || one.widthMm * one.heightMm > best.widthMm * best.heightMm ? one : best),
    undefined,
  );
}

/** A sheet to buy as a line of the parts list. */
export function boughtSheet(line: SheetLine): PartLine {
  const { id, stock, label, process, quantity, massG, files } = line;
  return {
    id,
    name: 'sheet to buy',
    quantity,
    stock,
    label,
    size: sheetSize(line),
    process,
    massG,
    files,
    note: leftText(line),
    areaMm2: line.widthMm * line.heightMm,
  };
}

/** `200 x 300 mm`, the shorter side first. */
export function sheetSize({ widthMm, heightMm }: SheetLine): string {
  const [short, long] = widthMm < heightMm ? [widthMm, heightMm] : [heightMm, widthMm];
  return `${numberText(short)} x ${numberText(long)} mm`;
}

/** What is left, for a person. */
export function leftText({ pieces, leftMm2, largestLeft }: SheetLine): string {
  const most =
    largestLeft === undefined
      ? ''
      : `, ${numberText(largestLeft.widthMm, 0)} x ${numberText(largestLeft.heightMm, 0)} mm of it in one piece`;
  return `${pieces === 1 ? '1 part' : `${pieces} parts`}; ${numberText(leftMm2 / 100, 0)} cm² left${most}.`;
}
