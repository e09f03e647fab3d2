import type { Rod, Tube } from '@sheetwave/design';
import type { Part } from '@sheetwave/geometry';
import { numberText } from '../number-text.ts';
import type { PartLine } from '../parts-list.ts';

/** Lost at every cut of a saw, with what is filed off the end (common practice). */
const CUT_MM = 2;

/** A length of rod or tube to buy, and what is cut from it. */
interface LengthLine {
  readonly stock: Rod | Tube;
  readonly pieces: readonly { readonly quantity: number; readonly lengthMm: number }[];
}

/** Rods and tubes to buy, one line for each stock: the fewest of the shortest length that holds every piece. */
export function boughtLengths(parts: readonly Part[], massKgPerM: (stock: Rod | Tube) => number): readonly PartLine[] {
  const lines = new Map<string, LengthLine>();
  for (const part of parts) {
    if (part.form !== 'rod' && part.form !== 'tube') continue;
    const stock = part.form === 'rod' ? part.rod : part.tube;
    const lengthMm = part.form === 'rod' ? part.developedLengthMm : part.lengthMm;
    const before = lines.get(stock.id)?.pieces ?? [];
    lines.set(stock.id, { stock, pieces: [...before, { quantity: part.quantity, lengthMm }] });
  }
  return [...lines.values()].map((line) => lineOf(line, massKgPerM));
}

function lineOf({ stock, pieces }: LengthLine, massKgPerM: (stock: Rod | Tube) => number): PartLine {
  const single = pieces.flatMap(({ quantity, lengthMm }) => Array.from({ length: quantity }, () => lengthMm + CUT_MM));
  const choice = fewest(single, stock.lengthsMm);
  const neededMm = single.reduce((sum, length) => sum + length, 0);
  return {
    id: `length-${stock.id}`,
    name: `${stock.kind} to buy`,
    quantity: choice.count,
    stock: stock.id,
    label: stock.label,
    size: `length ${numberText(choice.lengthMm)} mm`,
    process: 'bought',
    massG: Number(numberText(massKgPerM(stock) * choice.lengthMm, 3)),
    lengthMm: choice.lengthMm,
    files: [],
    note: `${single.length === 1 ? '1 piece' : `${single.length} pieces`}, ${numberText(neededMm, 0)} mm with ${CUT_MM} mm for every cut.`,
  };
}

/** The shortest length that takes everything in one; else the longest, filled one after the other, long pieces first. */
function fewest(
  pieces: readonly number[],
  lengthsMm: readonly number[],
): { readonly lengthMm: number; readonly count: number } {
  const total = pieces.reduce((sum, piece) => sum + piece, 0);
  const sorted = [...lengthsMm].sort((a, b) => a - b);
  const one = sorted.find((length) => total <= length);
  if (one !== undefined) return { lengthMm: one, count: 1 };
  const longest = sorted.at(-1) ?? total;
  const left: number[] = [];
  for (const piece of [...pieces].sort((a, b) => b - a)) {
    const room = left.findIndex((rest) => rest >= piece);
    if (room < 0) left.push(longest - piece);
    else left[room] = (left[room] ?? 0) - piece;
  }
  return { lengthMm: longest, count: left.length };
}
