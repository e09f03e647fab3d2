import type { Contour, Point, Segment } from '../outline.ts';

/** A corner of a polygon and the radius it is rounded to, mm; 0 keeps it sharp. */
export interface Corner extends Point {
  readonly radiusMm: number;
}

/** A turn this small needs no arc, rad. */
const STRAIGHT_RAD = 1e-9;
/** Pieces shorter than this are left out, mm. */
const SPECK_MM = 1e-9;

/**
 * A polygon through corners, each rounded by its own radius: the arc touches both sides. Runs as the corners are listed.
 * Throws when an arc is longer than its sides leave room for.
 */
export function roundedPolygon(corners: readonly Corner[]): Contour {
  const turns = corners.map((corner, i) => turnAt(ring(corners, i - 1), corner, ring(corners, i + 1)));
  requireRoom(corners, turns);
  const start = ring(turns, -1).leave;
  let here = start;
  const segments: Segment[] = [];
  const add = (segment: Segment): void => {
    if (Math.hypot(segment.to.x - here.x, segment.to.y - here.y) <= SPECK_MM) return;
    segments.push(segment);
    here = segment.to;
  };
  for (const turn of turns) {
    add({ kind: 'line', to: turn.enter });
    if (turn.arc) add({ kind: 'arc', to: turn.leave, ...turn.arc });
  }
  const last = segments.pop();
  return { kind: 'path', start, segments: last === undefined ? [] : [...segments, { ...last, to: start }] };
}

interface Turn {
  readonly enter: Point;
  readonly leave: Point;
  /** From the corner to where its arc touches a side. */
  readonly tangentMm: number;
  readonly arc: { readonly centre: Point; readonly sense: 'ccw' | 'cw' } | undefined;
}

function turnAt(before: Point, corner: Corner, after: Point): Turn {
  const [into, out] = [unit(before, corner), unit(corner, after)];
  const turnRad = Math.atan2(into.x * out.y - into.y * out.x, into.x * out.x + into.y * out.y);
  if (corner.radiusMm === 0 || Math.abs(turnRad) < STRAIGHT_RAD)
    return { enter: point(corner), leave: point(corner), tangentMm: 0, arc: undefined };
  const tangentMm = corner.radiusMm * Math.tan(Math.abs(turnRad) / 2);
  const side = Math.sign(turnRad) * corner.radiusMm;
  const enter = { x: corner.x - tangentMm * into.x, y: corner.y - tangentMm * into.y };
  return {
    enter,
    leave: { x: corner.x + tangentMm * out.x, y: corner.y + tangentMm * out.y },
    tangentMm,
    arc: { centre: { x: enter.x - side * into.y, y: enter.y + side * into.x }, sense: side > 0 ? 'ccw' : 'cw' },
  };
}

function requireRoom(corners: readonly Corner[], turns: readonly Turn[]): void {
  corners.forEach((corner, i) => {
    const next = ring(corners, i + 1);
    const side = Math.hypot(next.x - corner.x, next.y - corner.y);
    if (ring(turns, i).tangentMm + ring(turns, i + 1).tangentMm <= side + 1e-9) return;
    throw new Error(`rounded polygon: a side of ${side} mm at (${corner.x}, ${corner.y}) mm is too short for its arcs`);
  });
}

const point = ({ x, y }: Point): Point => ({ x, y });

function unit(from: Point, to: Point): Point {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (!(length > 0)) throw new Error(`rounded polygon: corner (${to.x}, ${to.y}) mm twice in a row`);
  return { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
}

function ring<T>(items: readonly T[], index: number): T {
  const item = items[(index + items.length) % items.length];
  if (item === undefined) throw new Error('rounded polygon: it has no corners');
  return item;
}
