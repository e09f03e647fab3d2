import type { Process, Sheet } from '@sheetwave/design';
import type { Grouping, Kind } from './blocks.ts';
import { type LaidPiece, layOut } from './lay-out.ts';
import { fits, type Room } from './pack-rectangles.ts';

/** All pieces on equal sheets, each `widthMm` along x and `heightMm` along y. Places are from the corner of the sheet. */
export interface Layout {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly sheets: readonly (readonly LaidPiece[])[];
}

/** More pieces are never packed one by one: the time of the packer grows faster than their number. */
const MOST_SINGLES = 60;

/** Gap between parts: the spacing, or what a run-in with its kerf needs. */
export function gapOf(process: Process): number {
  return process.leadInMm > 0 ? Math.max(process.spacingMm, process.leadInMm + process.kerfMm) : process.spacingMm;
}

/** What is left of a sheet inside its edge margin. */
export function roomOn(size: readonly [number, number], process: Process): Room {
  const margin = 2 * process.edgeMarginMm;
  return { widthMm: size[0] - margin, heightMm: size[1] - margin, gapMm: gapOf(process) };
}

/**
 * The sizes of a sheet as they may lie: both ways round, or, when a part keeps to the grain, with the longer side upright, because sheet is rolled
 * along its length.
 */
export function lyingSizes(sheet: Sheet, upright: boolean): readonly (readonly [number, number])[] {
  const found = new Map<string, readonly [number, number]>();
  for (const [a, b] of sheet.sizesMm) {
    const [short, long] = a < b ? [a, b] : [b, a];
    found.set(`${short} ${long}`, [short, long]);
    if (!upright) found.set(`${long} ${short}`, [long, short]);
  }
  return [...found.values()];
}

/**
 * Of all sizes into which every kind fits, the layout that takes the fewest square millimetres of sheet; of equals the one with fewer sheets, then
 * of the shorter size. Undefined when no size takes every kind.
 */
export function chooseSheet(
  kinds: readonly Kind[],
  sizes: readonly (readonly [number, number])[],
  process: Process,
): Layout | undefined {
  const pieces = kinds.reduce((sum, kind) => sum + kind.quantity, 0);
  const area = kinds.reduce((sum, kind) => sum + kind.quantity * kind.widthMm * kind.heightMm, 0);
  const groupings: readonly Grouping[] = pieces <= MOST_SINGLES ? ['singles', 'rows', 'blocks'] : ['rows', 'blocks'];
  let best: Layout | undefined;
  for (const size of sizes) {
    const room = roomOn(size, process);
    if (!kinds.every((kind) => fits(kind, room)) || leastBought(area, size, room) > bought(best)) continue;
    for (const grouping of groupings) best = better(best, laid(kinds, { size, room, process, grouping }));
  }
  return best;
}

/** No layout takes less: parts have to lie somewhere. */
function leastBought(areaMm2: number, [width, height]: readonly [number, number], room: Room): number {
  return Math.ceil(areaMm2 / (room.widthMm * room.heightMm) - 1e-9) * width * height;
}

function laid(
  kinds: readonly Kind[],
  on: { size: readonly [number, number]; room: Room; process: Process; grouping: Grouping },
): Layout {
  const margin = on.process.edgeMarginMm;
  const sheets = layOut(kinds, on.room, on.grouping).map((sheet) =>
    sheet.map((piece) => ({ ...piece, x: piece.x + margin, y: piece.y + margin })),
  );
  return { widthMm: on.size[0], heightMm: on.size[1], sheets };
}

function better(a: Layout | undefined, b: Layout): Layout {
  if (a === undefined) return b;
  const order = [
    bought(b) - bought(a),
    b.sheets.length - a.sheets.length,
    Math.max(b.widthMm, b.heightMm) - Math.max(a.widthMm, a.heightMm),
    lastHeight(b) - lastHeight(a),
  ];
  const decides = order.find((difference) => Math.abs(difference) > 1e-6);
  return decides !== undefined && decides < 0 ? b : a;
}

const bought = (layout: Layout | undefined): number =>
  layout === undefined ? Number.POSITIVE_INFINITY : layout.sheets.length * layout.widthMm * layout.heightMm;

/** How few pieces are on the last sheet: what is left of it stays in one. */
const lastHeight = (layout: Layout): number => layout.sheets.at(-1)?.length ?? 0;
