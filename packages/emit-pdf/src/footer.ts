import { type Pen, printCheck, type Stretch, textWidth, wrapText } from '@sheetwave/drawings';
import type { Point } from '@sheetwave/geometry';
import { drawOverview, OVERVIEW_MM } from './overview.ts';
import type { Tile, Tiling } from './tiling.ts';

const CHECK_WORDS = [
  'Print at 100 %, scaling off.',
  'Measure the bar and the square before you use this page.',
] as const;
const SIZE = 2.2;
const LINE = 3.2;
const GAP = 5;

/** Height that the foot of a page takes. */
export const FOOTER_MM = 24;

export interface Foot {
  readonly title: string;
  readonly page: number;
  readonly pages: number;
  /** Missing on a page of words. */
  readonly tile: Tile | undefined;
  readonly tiling: Tiling | undefined;
  /** That of the drawing: the check comes out true when the drawing does. */
  readonly stretch: Stretch | undefined;
}

/** What is on every page: bar and square to check the printer, which page it is, and where it belongs. */
export function drawFooter(pen: Pen, corner: Point, foot: Foot & { readonly widthMm: number }): void {
  const { stretch } = foot;
  const check = printCheck(100, { words: CHECK_WORDS, ...(stretch && { stretch }) });
  check.draw(pen, corner);
  const left = corner.x + check.widthMm + GAP;
  const right = corner.x + foot.widthMm;
  const hasOverview = foot.tiling !== undefined && foot.tiling.tiles.length > 1;
  const words = pen.group('caption');
  const room = right - left - (hasOverview ? OVERVIEW_MM.width + 2 : 0);
  words.text({ x: left, y: corner.y - 3 }, `Page ${foot.page} of ${foot.pages}`, { sizeMm: 3, bold: true });
  captionLines(foot, room).forEach((line, index) => {
    words.text({ x: left, y: corner.y - 7 - index * LINE }, line, { sizeMm: SIZE });
  });
  if (hasOverview) drawOverview(pen, { x: right - OVERVIEW_MM.width, y: corner.y }, foot.tiling, foot.tile);
}

function captionLines({ title, tile, tiling }: Foot, roomMm: number): readonly string[] {
  const look = { sizeMm: SIZE };
  const place =
    tile === undefined || tiling === undefined || tiling.tiles.length === 1
      ? []
      : [`column ${tile.column}, row ${tile.row}`];
  const lines = [...place, ...wrapText(title, roomMm, look)].slice(0, 5);
  return lines.map((line) => shortened(line, roomMm));
}

function shortened(line: string, roomMm: number): string {
  if (textWidth(line, { sizeMm: SIZE }) <= roomMm) return line;
  let kept = line;
  while (kept !== '' && textWidth(`${kept}…`, { sizeMm: SIZE }) > roomMm) kept = kept.slice(0, -1);
  return `${kept}…`;
}
