import type { Pen } from '@sheetwave/drawings';
import { spreadSized, textWidth } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';
import { INK, PAPER, QUIET, SOFT } from './palette.ts';

/** A label with a leader to a point of the picture: a first line, and smaller lines below it. */
export interface Callout {
  readonly id: string;
  readonly anchor: Point;
  readonly title: string;
  readonly lines: readonly string[];
}

export interface PlacedCallout extends Callout {
  /** Upper left corner of its words, or upper right in a column on the left. */
  readonly corner: Point;
  readonly heightMm: number;
}

const TITLE = 3.2;
const SMALL = 2.6;
const TITLE_LINE = 4.2;
const SMALL_LINE = 3.6;
const GAP = 2.4;
const ELBOW = 4;

const heightOf = (callout: Callout): number => TITLE_LINE + callout.lines.length * SMALL_LINE;

/** Width of the widest words. */
function calloutWidth(callouts: readonly Callout[]): number {
  const widths = callouts.flatMap((callout) => [
    textWidth(callout.title, { sizeMm: TITLE, bold: true }),
    ...callout.lines.map((line) => textWidth(line, { sizeMm: SMALL })),
  ]);
  return Math.max(0, ...widths);
}

/**
 * Puts callouts one below the other in a column whose words begin at `x`, each as near to its anchor's height as can be.
 * Neighbours whose leaders cross change places until none do.
 */
export function placeCallouts(callouts: readonly Callout[], x: number): readonly PlacedCallout[] {
  let order = [...callouts].sort((a, b) => b.anchor.y - a.anchor.y || a.anchor.x - b.anchor.x);
  for (let round = 0; round < callouts.length ** 2; round++) {
    const placed = inColumn(order, x);
    const crossed = placed.findIndex((one, index) => {
      const next = placed[index + 1];
      return next !== undefined && cross(leaderOf(one), leaderOf(next));
    });
    if (crossed < 0) break;
    order = order.map(
      (one, index) => (index === crossed ? order[index + 1] : index === crossed + 1 ? order[index - 1] : one) ?? one,
    );
  }
  return inColumn(order, x);
}

function inColumn(order: readonly Callout[], x: number): readonly PlacedCallout[] {
  // Downwards is ascending: the spreading works on rising numbers.
  const sizes = order.map(heightOf);
  const wanted = order.map((callout, index) => -callout.anchor.y - TITLE_LINE / 2 + (sizes[index] ?? 0) / 2);
  const middles = spreadSized(wanted, sizes, GAP);
  return order.map((callout, index) => {
    const heightMm = sizes[index] ?? 0;
    return { ...callout, corner: { x, y: -(middles[index] ?? 0) + heightMm / 2 }, heightMm };
  });
}

/** Anchor, elbow, and where the words begin. */
function leaderOf(callout: PlacedCallout): readonly [Point, Point, Point] {
  const y = callout.corner.y - TITLE_LINE / 2;
  const end = { x: callout.corner.x - 1.2, y };
  return [callout.anchor, { x: end.x - ELBOW, y }, end];
}

/** True when the slanted parts of two leaders cross. */
function cross(first: readonly [Point, Point, Point], second: readonly [Point, Point, Point]): boolean {
  const [a, b] = first;
  const [c, d] = second;
  const side = (p: Point, q: Point, r: Point): number =>
    Math.sign((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

/** The box of a column, elbows not included. */
export function calloutsBox(placed: readonly PlacedCallout[]): Bounds | undefined {
  const [first] = placed;
  const last = placed.at(-1);
  if (first === undefined || last === undefined) return undefined;
  return {
    minX: first.corner.x,
    maxX: first.corner.x + calloutWidth(placed),
    maxY: first.corner.y,
    minY: last.corner.y - last.heightMm,
  };
}

export function drawCallouts(pen: Pen, placed: readonly PlacedCallout[]): void {
  const leaders = pen.group('leaders', { stroke: SOFT, width: 0.18, fill: 'none', join: 'round', cap: 'round' });
  for (const callout of placed) drawLeader(leaders, callout);
  const words = pen.group('callouts');
  for (const callout of placed) drawWords(words, callout);
}

function drawLeader(pen: Pen, callout: PlacedCallout): void {
  pen.polyline(leaderOf(callout));
  pen.circle(callout.anchor, 0.55, { fill: INK, stroke: PAPER, width: 0.2 });
}

function drawWords(pen: Pen, callout: PlacedCallout): void {
  const { x, y } = callout.corner;
  pen.text({ x, y: y - TITLE_LINE / 2 - TITLE * 0.37 }, callout.title, {
    sizeMm: TITLE,
    bold: true,
    colour: INK,
    id: `callout-${callout.id}`,
  });
  callout.lines.forEach((line, index) => {
    pen.text({ x, y: y - TITLE_LINE - index * SMALL_LINE - SMALL }, line, { sizeMm: SMALL, colour: QUIET });
  });
}
