import type { Paper } from '@sheetwave/design';
import type { Pen } from '@sheetwave/drawings';
import type { PlanDocument } from '@sheetwave/plan';
import { addDrawing } from '../pages.ts';
import { bothWays, type PaperSize } from '../paper.ts';
import { openPdf, type PdfFile } from '../pdf-file.ts';
import { penOn } from '../pdf-pen.ts';
import { type SectionBegun, sectionPieces } from './blocks.ts';
import { BODY, RULE, TITLE } from './look.ts';
import { type PlacedPage, paginate } from './paginate.ts';
import type { Piece, Spot } from './piece.ts';
import { drawLine, later, words } from './words.ts';

/** Edges of a page that stay white; a printer that leaves more white gets more. */
const EDGE_MM = 15;
/** Foot with the check bar and the number of the page. */
const FOOT_MM = 12;
const BAR_MM = 50;

interface Room {
  readonly size: PaperSize;
  readonly edgeMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/**
 * The build plan as a PDF to read and to print: drawings in place among the words, an outline, and a structure that reading
 * programs follow. The same plan gives the same bytes.
 *
 * @throws Error when `date` is not an ISO 8601 date.
 */
export function planPdf(plan: PlanDocument, paper: Paper): Uint8Array {
  const [size] = bothWays(paper);
  const room = roomOn(size, paper);
  const file = openPdf({ title: plan.title, subject: plan.about, date: plan.date });
  const pageOf = new Map<string, number>();
  let last: SectionBegun | undefined;
  const begun = (at: SectionBegun): void => {
    last = at;
  };
  const pieces = [
    ...titlePieces(plan, { room, file, pageOf }),
    ...plan.sections.flatMap((section) => sectionPieces(section, { plan, parent: file.root, begun, ...room })),
  ];
  const pages = paginate(pieces, room.heightMm);
  pages.forEach((page, index) => {
    for (const { piece } of page) if (piece.section !== undefined) pageOf.set(piece.section, index + 1);
  });
  pages.forEach((page, index) => {
    paintPage(page, { file, room, foot: { title: plan.title, number: index + 1, of: pages.length } });
  });
  addFullSize(plan, { file, paper, last });
  return file.bytes();
}

/** The drawings at 1:1, which the last section is about. */
function addFullSize(
  { fullSize }: PlanDocument,
  of: { readonly file: PdfFile; readonly paper: Paper; readonly last: SectionBegun | undefined },
): void {
  const { file, paper, last } = of;
  for (const drawing of fullSize) {
    const begun = (): void => {
      file.bookmark(drawing.title, last?.entry);
    };
    addDrawing(file, drawing, { paper, parent: last?.node ?? file.root, begun });
  }
}

function roomOn(size: PaperSize, { marginMm }: Paper): Room {
  const edgeMm = Math.max(EDGE_MM, marginMm);
  return {
    size,
    edgeMm,
    widthMm: size.widthMm - 2 * edgeMm,
    heightMm: size.heightMm - 2 * edgeMm - FOOT_MM,
  };
}

function titlePieces(
  plan: PlanDocument,
  of: { readonly room: Room; readonly file: PdfFile; readonly pageOf: ReadonlyMap<string, number> },
): readonly Piece[] {
  const { room, file, pageOf } = of;
  const { widthMm } = room;
  const contents = later(() => file.root.child('TOC'));
  return [
    ...words(plan.title, {
      look: TITLE,
      widthMm,
      beforeMm: 0,
      keepsNext: true,
      node: later(() => file.root.child('H1')),
    }),
    ...words(plan.subtitle, { look: BODY, widthMm, beforeMm: 1, node: later(() => file.root.child('P')) }),
    ...plan.sections.map((section, index): Piece => {
      const node = later(() => contents().child('TOCI'));
      return {
        heightMm: BODY.lineMm,
        beforeMm: index === 0 ? 4 : 0,
        keepsNext: true,
        paint: (spot) =>
          spot.page.tagged(node(), () => {
            drawLine(spot, `${section.title} `, { look: BODY });
            drawLine(spot, `page ${pageOf.get(section.id) ?? ''}`, { look: BODY, indentMm: widthMm - 18 });
          }),
      };
    }),
  ];
}

interface Foot {
  readonly title: string;
  readonly number: number;
  readonly of: number;
}

function paintPage(placed: PlacedPage, on: { readonly file: PdfFile; readonly room: Room; readonly foot: Foot }): void {
  const { file, room, foot } = on;
  const { size, edgeMm } = room;
  const page = file.page(size);
  const window = { minX: 0, minY: 0, maxX: size.widthMm, maxY: size.heightMm };
  const pen = penOn({ page, toPage: ({ x, y }) => ({ x, y: size.heightMm - y }), window });
  for (const { piece, downMm } of placed) {
    const spot: Spot = {
      file,
      page,
      pen,
      pageHeightMm: size.heightMm,
      left: edgeMm,
      top: size.heightMm - edgeMm - downMm,
    };
    piece.paint(spot);
  }
  page.artifact(() => drawFoot(pen, room, foot));
}

/** A bar to check the print by, and which page it is. */
function drawFoot(pen: Pen, { size, edgeMm }: Room, { title, number, of }: Foot): void {
  const y = edgeMm;
  const ends = [edgeMm, edgeMm + BAR_MM].map(
    (x) =>
      [
        { x, y },
        { x, y: y + 2 },
      ] as const,
  );
  pen.lines(ends, RULE);
  pen.line({ x: edgeMm, y }, { x: edgeMm + BAR_MM, y }, RULE);
  const look = { sizeMm: 2.4 };
  pen.text({ x: edgeMm + BAR_MM + 2, y }, '50 mm when printed at 100 %', look);
  pen.text({ x: size.widthMm - edgeMm, y }, `${title}, page ${number} of ${of}`, { ...look, anchor: 'end' });
}
