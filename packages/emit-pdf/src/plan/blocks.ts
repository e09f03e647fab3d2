import { type PlanBlock, type PlanDocument, type Section, type Step, stepNeeds, stepTitle } from '@sheetwave/plan';
import type { Bookmark, PdfNode } from '../pdf-file.ts';
import { figurePieces } from './figure.ts';
import { listPieces } from './list.ts';
import { BODY, CAPTION, FRAME, HEAD_1, HEAD_2 } from './look.ts';
import type { Piece } from './piece.ts';
import { tablePieces } from './table.ts';
import { later, words } from './words.ts';

/** Where the pieces of a section go. */
export interface SectionFrame {
  readonly plan: PlanDocument;
  readonly parent: PdfNode;
  readonly widthMm: number;
  /** Of a whole page. */
  readonly heightMm: number;
  /** Told when the section has begun: its place in the structure and in the outline. */
  readonly begun?: (at: SectionBegun) => void;
}

export interface SectionBegun {
  readonly node: PdfNode;
  readonly entry: Bookmark;
}

interface Frame {
  readonly plan: PlanDocument;
  readonly parent: () => PdfNode;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Entry of the outline under which headings stand; known once the section has begun. */
  readonly bookmark: () => Bookmark | undefined;
}

/** A section: its title, an entry of the outline, and what stands in it. */
export function sectionPieces(section: Section, frame: SectionFrame): readonly Piece[] {
  const parent = later(() => frame.parent.child('Sect'));
  let entry: Bookmark | undefined;
  const title = words(section.title, {
    look: HEAD_1,
    widthMm: frame.widthMm,
    beforeMm: 9,
    keepsNext: true,
    node: later(() => parent().child('H2')),
    onPage: (spot) => {
      entry = spot.file.bookmark(section.title);
      frame.begun?.({ node: parent(), entry });
    },
  });
  const inside: Frame = { ...frame, parent, bookmark: () => entry };
  const begun = title.map((piece, index) => (index === 0 ? { ...piece, section: section.id } : piece));
  const inner = section.blocks.map((block, index) => {
    const pieces = blockPieces(block, inside);
    // Words that lead to a figure stand on its page.
    const leads = block.kind === 'paragraph' && section.blocks[index + 1]?.kind === 'figure';
    return leads ? pieces.map((piece) => ({ ...piece, keepsNext: true })) : pieces;
  });
  return [...begun, ...inner.flat()];
}

function blockPieces(block: PlanBlock, frame: Frame): readonly Piece[] {
  switch (block.kind) {
    case 'heading':
      return headingPieces(block.text, frame);
    case 'paragraph':
      return words(block.text, { ...plainWords(frame), beforeMm: 2.2 });
    case 'list':
      return listPieces(block.items, frame);
    case 'notice':
      return noticePieces(block, frame);
    case 'table':
      return tablePieces(block, frame);
    case 'figure':
      return figurePieces(block.figure, { ...frame, mostHeightMm: frame.heightMm });
    case 'step':
      return stepPieces(block.step, frame);
  }
}

const plainWords = ({ parent, widthMm }: Frame) => ({
  look: BODY,
  widthMm,
  node: later(() => parent().child('P')),
});

function headingPieces(text: string, frame: Frame): readonly Piece[] {
  return words(text, {
    look: HEAD_2,
    widthMm: frame.widthMm,
    beforeMm: 6,
    keepsNext: true,
    node: later(() => frame.parent().child('H3')),
    onPage: (spot) => {
      spot.file.bookmark(text, frame.bookmark());
    },
  });
}

/** Heavy bars at its left. */
function noticePieces(notice: Extract<PlanBlock, { kind: 'notice' }>, frame: Frame): readonly Piece[] {
  const title = words(notice.title, {
    look: { ...BODY, bold: true },
    widthMm: frame.widthMm,
    beforeMm: 3,
    indentMm: 3,
    keepsNext: true,
    node: later(() => frame.parent().child('P')),
  });
  const items = listPieces(notice.items, { ...frame, indentMm: 3 });
  return [...title, ...items].map((piece, index) => withBar(piece, index === 0));
}

function withBar(piece: Piece, isFirst: boolean): Piece {
  return {
    ...piece,
    paint: (spot) => {
      const up = isFirst ? 0 : piece.beforeMm;
      spot.page.artifact(() =>
        spot.pen.line(
          { x: spot.left + 0.6, y: spot.top + up },
          { x: spot.left + 0.6, y: spot.top - piece.heightMm },
          { ...FRAME, width: 1.2 },
        ),
      );
      piece.paint(spot);
    },
  };
}

function stepPieces(step: Step, frame: Frame): readonly Piece[] {
  const needs = stepNeeds(frame.plan, step).flatMap(({ label, words: said }) =>
    words(`${label}: ${said}.`, { ...plainWords(frame), look: CAPTION, beforeMm: 0.6, keepsNext: true }),
  );
  const figure = step.figure === undefined ? [] : figurePieces(step.figure, { ...frame, mostHeightMm: frame.heightMm });
  return [
    ...headingPieces(stepTitle(frame.plan, step), frame),
    ...needs,
    ...listPieces(step.lines, { ...frame, numbered: true }),
    ...figure,
    ...(step.check === ''
      ? []
      : words(`Right when: ${step.check}`, { ...plainWords(frame), beforeMm: 1.6, look: { ...BODY, bold: true } })),
  ];
}
