import { textWidth, wrapText } from '@sheetwave/drawings';
import type { PdfNode } from '../pdf-file.ts';
import type { WordLook } from './look.ts';
import type { Piece, Spot } from './piece.ts';

/** A node that is made when it is first asked for, so that nodes come in the order in which they are painted. */
export type Later = () => PdfNode;

export function later(make: () => PdfNode): Later {
  let made: PdfNode | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

export interface WordsOf {
  readonly look: WordLook;
  readonly widthMm: number;
  readonly beforeMm: number;
  readonly node: Later;
  /** From the left edge of the text. */
  readonly indentMm?: number;
  readonly keepsNext?: boolean;
  /** Called once, on the page where the words begin. */
  readonly onPage?: (spot: Spot) => void;
}

/** A text as lines that may part between pages, but leave no line alone. */
export function words(text: string, of: WordsOf): readonly Piece[] {
  const lines = wrapped(text, of.widthMm - (of.indentMm ?? 0), of.look);
  return lines.map((line, index) => {
    const [first, last] = [index === 0, index === lines.length - 1];
    const beforeLast = index === lines.length - 2;
    return {
      heightMm: of.look.lineMm,
      beforeMm: first ? of.beforeMm : 0,
      keepsNext: last ? of.keepsNext === true : first || beforeLast || of.keepsNext === true,
      paint: (spot) => {
        if (first) of.onPage?.(spot);
        // The blank at the end parts the words of one line from those of the next for a reader.
        spot.page.tagged(of.node(), () => drawLine(spot, last ? line : `${line} `, of));
      },
    };
  });
}

export function drawLine(spot: Spot, line: string, of: { readonly look: WordLook; readonly indentMm?: number }): void {
  const { look } = of;
  const at = { x: spot.left + (of.indentMm ?? 0), y: spot.top - look.sizeMm };
  spot.pen.text(at, line, { sizeMm: look.sizeMm, bold: look.bold === true });
}

/** Lines that are no longer than the width: a word that is longer is parted, at a slash where it has one. */
export function wrapped(text: string, widthMm: number, look: WordLook): readonly string[] {
  const lines = wrapText(text.replace(/\s+/g, ' '), widthMm, look);
  return lines.length === 0 ? [''] : lines.flatMap((line) => parted(line, widthMm, look));
}

function parted(line: string, widthMm: number, look: WordLook): readonly string[] {
  if (textWidth(line, look) <= widthMm) return [line];
  let count = 1;
  while (count < line.length && textWidth(line.slice(0, count + 1), look) <= widthMm) count += 1;
  const slash = line.slice(0, count).search(/[/_-][^/_-]*$/);
  const at = slash > count / 2 ? slash + 1 : count;
  return [line.slice(0, at), ...parted(line.slice(at), widthMm, look)];
}
