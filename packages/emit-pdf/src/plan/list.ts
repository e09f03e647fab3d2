import type { PdfNode } from '../pdf-file.ts';
import { BODY } from './look.ts';
import type { Piece } from './piece.ts';
import { drawLine, type Later, later, words } from './words.ts';

const INDENT = 6;

/** Items under each other, each with its mark: a dash, or its number. */
export function listPieces(
  items: readonly string[],
  of: {
    readonly parent: () => PdfNode;
    readonly widthMm: number;
    readonly numbered?: boolean;
    readonly indentMm?: number;
  },
): readonly Piece[] {
  const node = later(() => of.parent().child('L'));
  return items.flatMap((text, index) =>
    item(text, { ...of, node, mark: of.numbered === true ? `${index + 1}.` : '–', isFirst: index === 0 }),
  );
}

function item(
  text: string,
  of: {
    readonly node: Later;
    readonly widthMm: number;
    readonly mark: string;
    readonly isFirst: boolean;
    readonly indentMm?: number;
  },
): readonly Piece[] {
  const li = later(() => of.node().child('LI'));
  const label = later(() => li().child('Lbl'));
  const body = later(() => li().child('LBody'));
  const start = of.indentMm ?? 0;
  return words(text, {
    look: BODY,
    widthMm: of.widthMm,
    indentMm: start + INDENT,
    beforeMm: of.isFirst ? 1.6 : 0.8,
    node: body,
    onPage: (spot) => spot.page.tagged(label(), () => drawLine(spot, `${of.mark} `, { look: BODY, indentMm: start })),
  });
}
