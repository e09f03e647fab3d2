import type { Paper } from '@sheetwave/design';
import { type Block, flow, grow, heightOf, type PartDrawing, type Pen, widthOf, wordsBlock } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';
import { drawFooter, FOOTER_MM, type Foot } from './footer.ts';
import { bothWays, type PaperSize } from './paper.ts';
import { openPdf, type PdfFile, type PdfNode, type PdfPage } from './pdf-file.ts';
import { penOn } from './pdf-pen.ts';
import { drawRegisterMarks } from './register-marks.ts';
import { type Tile, type Tiling, tilingOf } from './tiling.ts';

const GAP = 4;
const BETWEEN = 8;

/** Everything about the pages of one drawing, worked out before the document is opened. */
interface Layout {
  readonly size: PaperSize;
  readonly paper: Paper;
  readonly tiling: Tiling;
  /** Words that go on pages of their own before the drawing; empty when they fit below it. */
  readonly wordPages: readonly (readonly Block[])[];
  readonly below: readonly Block[];
}

/** A drawing at 1:1 on pages of `paper`, as one PDF. */
export function pagedPdf(
  drawing: PartDrawing,
  { paper, date }: { readonly paper: Paper; readonly date: string | undefined },
): Uint8Array {
  const pdf = openPdf({ title: drawing.title, subject: drawing.about, date });
  addDrawing(pdf, drawing, { paper, parent: pdf.root });
  return pdf.bytes();
}

interface Place {
  readonly paper: Paper;
  /** What the structure of the drawing goes under. */
  readonly parent: PdfNode;
  /** Called when its first page has begun. */
  readonly begun?: () => void;
}

/**
 * Puts a drawing at 1:1 on pages of its own. It stands upright or across, whichever takes fewer pages. Words go below the
 * drawing when it fits on one page with them, and before it otherwise.
 */
export function addDrawing(pdf: PdfFile, drawing: PartDrawing, { paper, parent, begun }: Place): void {
  const layout = bestLayout(drawing, paper);
  const { tiling, wordPages } = layout;
  const pages = wordPages.length + tiling.tiles.length;
  const foot = { title: drawing.title, pages, tiling, stretch: drawing.stretch };
  const sheetAt = (index: number): Sheet => {
    const sheet = sheetOn(pdf, layout, parent);
    if (index === 0) begun?.();
    return sheet;
  };
  wordPages.forEach((blocks, index) => {
    const sheet = sheetAt(index);
    drawBlocks(sheet, blocks, { corner: sheet.corner, widthMm: widthOf(sheet.room) });
    sheet.foot({ ...foot, page: index + 1, tile: undefined });
  });
  tiling.tiles.forEach((tile, index) => {
    const sheet = sheetAt(wordPages.length + index);
    drawTilePage(sheet, { drawing, tile, layout });
    sheet.foot({ ...foot, page: wordPages.length + index + 1, tile });
  });
}

function bestLayout(drawing: PartDrawing, paper: Paper): Layout {
  const [upright, across] = bothWays(paper).map((size) => layoutOn(size, { drawing, paper }));
  if (upright === undefined || across === undefined) throw new Error('a paper has two ways to lie');
  const pages = (layout: Layout): number => layout.wordPages.length + layout.tiling.tiles.length;
  return pages(across) < pages(upright) ? across : upright;
}

function layoutOn(size: PaperSize, of: { readonly drawing: PartDrawing; readonly paper: Paper }): Layout {
  const { drawing, paper } = of;
  const room = roomOn(size, paper);
  const words = drawing.blocks.filter((block) => block.isPrintCheck !== true);
  const below = flow(words, widthOf(room));
  const base = { size, paper };
  const heightWithWords = heightOf(drawing.drawing) + (words.length > 0 ? BETWEEN + below.heightMm : 0);
  const widest = Math.max(widthOf(drawing.drawing), below.widthMm);
  const tiling = tilingOf(drawing.drawing, {
    widthMm: widthOf(room),
    heightMm: heightOf(room),
    overlapMm: paper.overlapMm,
  });
  if (heightWithWords <= heightOf(room) && widest <= widthOf(room))
    return { ...base, tiling, wordPages: [], below: words };
  const all = tiling.tiles.length > 1 ? [...words, joiningWords(tiling)] : words;
  return { ...base, tiling, wordPages: inPages(all, room), below: [] };
}

/** Printable room above the foot, page coordinates: mm, y up from the lower left corner of the paper. */
function roomOn(size: PaperSize, paper: Paper): Bounds {
  const whole = grow({ minX: 0, minY: 0, maxX: size.widthMm, maxY: size.heightMm }, -paper.marginMm);
  return { ...whole, minY: whole.minY + FOOTER_MM + GAP };
}

function joiningWords(tiling: Tiling): Block {
  return wordsBlock(
    'joining',
    [
      `The drawing lies on ${tiling.tiles.length} pages, ${tiling.columns} across and ${tiling.rows} down; the small picture at the foot of each shows where it belongs.`,
      'Check the bar and the square of every page before you join them.',
      'Lay neighbours over each other against a window so that crosses of one name (2-1 on 2-1) coincide, at both ends of the seam, then tape.',
    ],
    180,
  );
}

/** Blocks in order, each page filled before the next; one that is larger than a page has a page of its own. */
function inPages(blocks: readonly Block[], room: Bounds): readonly (readonly Block[])[] {
  const pages: Block[][] = [];
  for (const block of blocks) {
    const page = pages.at(-1);
    if (page !== undefined && flow([...page, block], widthOf(room)).heightMm <= heightOf(room)) page.push(block);
    else pages.push([block]);
  }
  return pages;
}

interface Sheet {
  readonly parent: PdfNode;
  readonly page: PdfPage;
  readonly size: PaperSize;
  /** Draws in page coordinates. */
  readonly pen: Pen;
  readonly room: Bounds;
  /** Upper left corner of the room. */
  readonly corner: Point;
  foot(foot: Foot): void;
}

function sheetOn(pdf: PdfFile, { size, paper }: Layout, parent: PdfNode): Sheet {
  const page = pdf.page(size);
  const window = { minX: 0, minY: 0, maxX: size.widthMm, maxY: size.heightMm };
  const pen = penOn({ page, toPage: ({ x, y }) => ({ x, y: size.heightMm - y }), window });
  const room = roomOn(size, paper);
  const at = { x: room.minX, y: room.minY - GAP };
  const foot = (what: Foot): void => page.artifact(() => drawFooter(pen, at, { ...what, widthMm: widthOf(room) }));
  return { parent, page, size, pen, room, corner: { x: room.minX, y: room.maxY }, foot };
}

function drawBlocks(
  { parent, page, pen }: Sheet,
  blocks: readonly Block[],
  at: { readonly corner: Point; readonly widthMm: number },
): void {
  for (const { block, corner } of flow(blocks, at.widthMm).placed)
    page.tagged(parent.child('P'), () => block.draw(pen, { x: at.corner.x + corner.x, y: at.corner.y + corner.y }));
}

function drawTilePage(
  sheet: Sheet,
  what: { readonly drawing: PartDrawing; readonly tile: Tile; readonly layout: Layout },
): void {
  const { drawing, tile, layout } = what;
  const { room } = sheet;
  if (layout.tiling.tiles.length === 1) {
    drawWhole(sheet, drawing, layout.below);
    return;
  }
  const shift = { x: room.minX - tile.window.minX, y: room.maxY - tile.window.maxY };
  const pen = penOn({ page: sheet.page, toPage: toPageBy(shift, sheet.size), window: tile.window });
  const box = {
    minX: room.minX,
    maxX: room.maxX,
    minY: sheet.size.heightMm - room.maxY,
    maxY: sheet.size.heightMm - room.minY,
  };
  tagFigure(sheet, drawing, () => sheet.page.within(box, () => drawing.draw(pen)));
  sheet.page.artifact(() => drawRegisterMarks(pen, tile.corners, layout.paper.overlapMm));
}

/** A drawing that fits: in the middle of the page's width at the top, its words below it. */
function drawWhole(sheet: Sheet, drawing: PartDrawing, below: readonly Block[]): void {
  const { room } = sheet;
  const box = drawing.drawing;
  drawBlocks(sheet, below, {
    corner: { x: room.minX, y: room.maxY - heightOf(box) - BETWEEN },
    widthMm: widthOf(room),
  });
  const shift = { x: (room.minX + room.maxX) / 2 - (box.minX + box.maxX) / 2, y: room.maxY - box.maxY };
  const pen = penOn({ page: sheet.page, toPage: toPageBy(shift, sheet.size), window: box });
  tagFigure(sheet, drawing, () => drawing.draw(pen));
}

/** What a reading program says of a drawing: what it is, and where. */
function tagFigure({ parent, page, size, room }: Sheet, { title, about }: PartDrawing, draw: () => void): void {
  const box = { ...room, minY: size.heightMm - room.maxY, maxY: size.heightMm - room.minY };
  page.tagged(parent.child('Figure', { alt: `${title}. ${about}`, box }), draw);
}

const toPageBy =
  (shift: Point, size: PaperSize) =>
  ({ x, y }: Point): Point => ({ x: x + shift.x, y: size.heightMm - (y + shift.y) });
