import {
  type BoardPart,
  type Bounds,
  bounds,
  legendText,
  type Point,
  type Stroke,
  textStrokes,
  textWidthMm,
} from '@sheetwave/geometry';
import { ApertureTable } from './apertures.ts';
import type { Frame } from './frame.ts';
import { boxAt, inkObstacles, isFree, type Size } from './free-place.ts';
import { place } from './region.ts';

/** Ink lines thinner than this do not print well; capitals lower than 1 mm do not read (common practice, no source). */
const LINE_MM = 0.15;
const TEXT_HEIGHTS_MM = [2, 1.5, 1.2, 1];
const ARROW: Size = { widthMm: 1.6, heightMm: 2.4 };
/** Distance between two places that are tried. */
const STEP_MM = 0.5;

/**
 * The legend of the top side: the part's name with the revision, and an arrow at each edge a feed is nearest to.
 * Ink keeps off bare copper, radiators and holes, so what finds no room is left out; an empty list when nothing fits.
 */
export function legendBody(board: BoardPart, revision: string, frame: Frame): readonly string[] {
  const strokes = legendStrokes(board, revision);
  if (strokes.length === 0) return [];
  const apertures = new ApertureTable();
  const code = apertures.round(LINE_MM, '');
  return [...apertures.definitions, `D${code}*`, 'G01*', ...strokes.flatMap((stroke) => strokeCommands(stroke, frame))];
}

/** The lines of the legend in the board's own plane, mm. */
export function legendStrokes(board: BoardPart, revision: string): readonly Stroke[] {
  const taken = [...inkObstacles(board)];
  const arrows = feedEdges(board).flatMap((edge) => {
    const corner = freeCorner(board, arrowSize(edge), { taken, wanted: edge.towards });
    if (corner === undefined) return [];
    taken.push(boxAt(corner, arrowSize(edge)));
    return arrowStrokes(edge, corner);
  });
  return [...arrows, ...titleStrokes(board, legendText(`${board.name} rev ${revision}`), taken)];
}

function titleStrokes(board: BoardPart, text: string, taken: readonly Bounds[]): readonly Stroke[] {
  const box = bounds(board.outline.outer);
  const wanted = { x: (box.minX + box.maxX) / 2, y: box.minY };
  for (const heightMm of TEXT_HEIGHTS_MM) {
    const size = { widthMm: textWidthMm(text, heightMm), heightMm };
    const flat = freeCorner(board, size, { taken, wanted });
    if (flat !== undefined) return moved(textStrokes(text, heightMm), flat);
    const upright = freeCorner(board, turned(size), { taken, wanted });
    if (upright !== undefined)
      return moved(textStrokes(text, heightMm).map(turnedLeft), { x: upright.x + heightMm, y: upright.y });
  }
  return [];
}

const turned = ({ widthMm, heightMm }: Size): Size => ({ widthMm: heightMm, heightMm: widthMm });
const turnedLeft = (stroke: Stroke): Stroke => stroke.map(({ x, y }) => ({ x: 0 - y, y: x }));
const moved = (strokes: readonly Stroke[], by: Point): readonly Stroke[] =>
  strokes.map((stroke) => stroke.map(({ x, y }) => ({ x: x + by.x, y: y + by.y })));

/** The lower left corner of the free place whose middle is nearest to `wanted`, or undefined when there is none. */
function freeCorner(
  board: BoardPart,
  size: Size,
  { taken, wanted }: { readonly taken: readonly Bounds[]; readonly wanted: Point },
): Point | undefined {
  const box = bounds(board.outline.outer);
  const columns = steps(box.minX, box.maxX - size.widthMm);
  const rows = steps(box.minY, box.maxY - size.heightMm);
  const away = ({ x, y }: Point) => Math.hypot(x + size.widthMm / 2 - wanted.x, y + size.heightMm / 2 - wanted.y);
  let best: Point | undefined;
  for (const y of rows) {
    for (const x of columns) {
      const corner = { x, y };
      if (best !== undefined && away(corner) >= away(best)) continue;
      if (isFree(board, boxAt(corner, size), taken)) best = corner;
    }
  }
  return best;
}

function steps(from: number, to: number): readonly number[] {
  const count = Math.floor((to - from) / STEP_MM + 1e-9);
  return count < 0 ? [] : Array.from({ length: count + 1 }, (_, index) => from + index * STEP_MM);
}

/** The side of the board a feed-edge mark is nearest to. */
interface FeedEdge {
  readonly side: 'left' | 'right' | 'low' | 'high';
  /** The place on that side. */
  readonly towards: Point;
}

function feedEdges(board: BoardPart): readonly FeedEdge[] {
  const edges = board.marks.flatMap((mark) => {
    if (mark.purpose !== 'feed-edge') return [];
    if (mark.kind === 'line') return [nearestEdge(board, middle(mark.from, mark.to))];
    return [nearestEdge(board, mark.kind === 'circle' ? mark.centre : mark.at)];
  });
  return edges.filter((edge, index) => edges.findIndex(({ side }) => side === edge.side) === index);
}

function nearestEdge(board: BoardPart, { x, y }: Point): FeedEdge {
  const box = bounds(board.outline.outer);
  const edges = [
    { side: 'low', away: y - box.minY, towards: { x, y: box.minY } },
    { side: 'high', away: box.maxY - y, towards: { x, y: box.maxY } },
    { side: 'left', away: x - box.minX, towards: { x: box.minX, y } },
    { side: 'right', away: box.maxX - x, towards: { x: box.maxX, y } },
  ] as const;
  return edges.reduce((best, edge) => (edge.away < best.away ? edge : best));
}

const middle = (a: Point, b: Point): Point => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });

const isUpright = ({ side }: FeedEdge): boolean => side === 'low' || side === 'high';
const arrowSize = (edge: FeedEdge): Size => (isUpright(edge) ? ARROW : turned(ARROW));

/** A shaft and two barbs that point to the edge, in the box whose lower left corner is `corner`. */
function arrowStrokes(edge: FeedEdge, corner: Point): readonly Stroke[] {
  const { widthMm: across, heightMm: along } = ARROW;
  // Drawn pointing up; flipped or laid down for the other edges.
  const up: readonly Stroke[] = [
    [
      { x: across / 2, y: 0 },
      { x: across / 2, y: along },
    ],
    [
      { x: 0, y: along - across / 2 },
      { x: across / 2, y: along },
      { x: across, y: along - across / 2 },
    ],
  ];
  const turn = {
    high: ({ x, y }: Point) => ({ x, y }),
    low: ({ x, y }: Point) => ({ x, y: along - y }),
    right: ({ x, y }: Point) => ({ x: y, y: x }),
    left: ({ x, y }: Point) => ({ x: along - y, y: x }),
  }[edge.side];
  return moved(
    up.map((stroke) => stroke.map(turn)),
    corner,
  );
}

function strokeCommands(stroke: Stroke, frame: Frame): readonly string[] {
  return stroke.map((point, index) => `${place(frame.toGrid(point))}${index === 0 ? 'D02' : 'D01'}*`);
}
