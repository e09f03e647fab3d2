import type { Pen } from '@sheetwave/drawings';
import type { Point } from '@sheetwave/geometry';
import { type CurveStyle, PAPER } from './look.ts';

export type Marker = 'ring' | 'square' | 'diamond';

const HALF = 0.75;
/** Markers closer than this along a curve hide it. */
const APART_MM = 6;

/** The marker of a curve at one point, white inside. Draws nothing for a curve without one. */
export function drawMarker(pen: Pen, at: Point, { marker, stroke }: CurveStyle): void {
  if (marker === undefined) return;
  const style = { stroke, width: 0.3, fill: PAPER };
  if (marker === 'ring') pen.circle(at, HALF, style);
  else pen.polygon(marker === 'square' ? squareAt(at) : diamondAt(at), style);
}

const squareAt = ({ x, y }: Point): readonly Point[] => [
  { x: x - HALF, y: y - HALF },
  { x: x + HALF, y: y - HALF },
  { x: x + HALF, y: y + HALF },
  { x: x - HALF, y: y + HALF },
];

const diamondAt = ({ x, y }: Point): readonly Point[] => [
  { x: x - 1, y },
  { x, y: y - 1 },
  { x: x + 1, y },
  { x, y: y + 1 },
];

/** Points of a line at which markers stand, spread evenly by the way along it. */
export function markerPoints(line: readonly Point[]): readonly Point[] {
  let way = APART_MM / 2;
  return line.filter((point, index) => {
    const before = line[index - 1];
    if (before !== undefined) way += Math.hypot(point.x - before.x, point.y - before.y);
    if (way < APART_MM) return false;
    way = 0;
    return true;
  });
}
