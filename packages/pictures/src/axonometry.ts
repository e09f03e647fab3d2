import type { Pen } from '@sheetwave/drawings';
import { clipPolygon } from '@sheetwave/drawings';
import type { Point, Point3 } from '@sheetwave/geometry';
import { blend, type Tones } from './palette.ts';

/** Turn of the antenna about z and height of the eye above its plane, degrees: chosen so that edges rarely fall on edges. */
const TURN_DEG = 32;
const EYE_DEG = 33;

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const [COS, SIN] = [Math.cos(radians(TURN_DEG)), Math.sin(radians(TURN_DEG))];
const [FLAT, TALL] = [Math.sin(radians(EYE_DEG)), Math.cos(radians(EYE_DEG))];

/** Parallel projection: parallels stay parallel and equal heights stay equal. Drawing coordinates at scale 1. */
export function project(point: Point3): Point {
  const { x, y, z } = point;
  return { x: x * COS - y * SIN, y: depthOf(point) * FLAT + z * TALL };
}

/** How far behind the origin a point lies, mm: what is drawn first. */
export const depthOf = (point: Point): number => point.x * SIN + point.y * COS;

/** Height at which a point in front of or behind another is drawn at `pageY` (drawing coordinates at scale 1). */
export const heightDrawnAt = (pageY: number, at: Point): number => (pageY - depthOf(at) * FLAT) / TALL;

/** An upright body: a polygon (counter-clockwise) between two heights, with convex holes right through. */
export interface Prism {
  readonly outer: readonly Point[];
  readonly holes: readonly (readonly Point[])[];
  readonly from: number;
  readonly to: number;
  readonly tones: Tones;
}

export interface Stage {
  readonly pen: Pen;
  /** Page mm for one mm of antenna. */
  readonly scale: number;
}

/** Draws what is seen of a prism: front sides, the walls inside its holes, the top, and its edges. */
export function drawPrism(stage: Stage, prism: Prism): void {
  const { pen } = stage;
  drawSides(stage, prism);
  const top = ringAt(stage, prism.outer, prism.to);
  const holes = prism.holes.map((hole) => ringAt(stage, hole, prism.to));
  pen.polygons([top, ...holes], { fill: prism.tones.light, stroke: 'none' });
  prism.holes.forEach((hole, index) => {
    drawHoleWall(stage, prism, { upper: holes[index] ?? [], lower: ringAt(stage, hole, prism.from) });
  });
  pen.polygons([top, ...holes], { fill: 'none' });
  drawLowerEdge(stage, prism);
}

function ringAt(stage: Stage, ring: readonly Point[], z: number): readonly Point[] {
  return ring.map((point) => onPage(stage, { ...point, z }));
}

export function onPage(stage: { readonly scale: number }, point: Point3): Point {
  const { x, y } = project(point);
  return { x: x * stage.scale, y: y * stage.scale };
}

/** The sides that face the eye: outward normal against the direction of looking. */
function frontEdges(ring: readonly Point[]): readonly (readonly [Point, Point])[] {
  return ring.flatMap((from, index) => {
    const to = ring[(index + 1) % ring.length] ?? from;
    const facing = (to.y - from.y) * SIN - (to.x - from.x) * COS;
    return facing < 0 ? [[from, to] as const] : [];
  });
}

function drawSides(stage: Stage, prism: Prism): void {
  for (const [from, to] of frontEdges(prism.outer)) {
    const tone = sideTone(from, to, prism.tones);
    stage.pen.polygon(
      [
        onPage(stage, { ...from, z: prism.from }),
        onPage(stage, { ...to, z: prism.from }),
        onPage(stage, { ...to, z: prism.to }),
        onPage(stage, { ...from, z: prism.to }),
      ],
      // Its own colour as rim closes the hairline seams that smooth edges leave between neighbours.
      { fill: tone, stroke: tone, width: 0.12 },
    );
  }
}

/** Light from the left: sides turned that way are lighter. */
function sideTone(from: Point, to: Point, tones: Tones): string {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const normal = { x: (to.y - from.y) / length, y: -(to.x - from.x) / length };
  const across = normal.x * COS - normal.y * SIN;
  return blend(tones.mid, tones.dark, Math.min(1, Math.max(0, (across + 0.75) / 1.5)));
}

function drawHoleWall(
  stage: Stage,
  prism: Prism,
  hole: { readonly upper: readonly Point[]; readonly lower: readonly Point[] },
): void {
  const open = clipPolygon(hole.upper, hole.lower);
  const rings = open.length > 2 ? [hole.upper, open] : [hole.upper];
  stage.pen.polygons(rings, { fill: prism.tones.dark, stroke: 'none' });
}

function drawLowerEdge(stage: Stage, prism: Prism): void {
  const edges = frontEdges(prism.outer);
  stage.pen.lines(
    edges.map(
      ([from, to]) => [onPage(stage, { ...from, z: prism.from }), onPage(stage, { ...to, z: prism.from })] as const,
    ),
    { fill: 'none' },
  );
  stage.pen.lines(
    uprightEdges(prism.outer).map(
      (corner) => [onPage(stage, { ...corner, z: prism.from }), onPage(stage, { ...corner, z: prism.to })] as const,
    ),
    { fill: 'none' },
  );
}

/** Corners where an upright edge is seen: sharp ones on the front, and where the body turns away from the eye. */
function uprightEdges(ring: readonly Point[]): readonly Point[] {
  return ring.filter((corner, index) => {
    const before = ring.at(index - 1) ?? corner;
    const after = ring[(index + 1) % ring.length] ?? corner;
    const [intoFront, outOfFront] = [isFront(before, corner), isFront(corner, after)];
    return intoFront !== outOfFront || (intoFront && turnDeg(before, corner, after) > 25);
  });
}

const isFront = (from: Point, to: Point): boolean => (to.y - from.y) * SIN - (to.x - from.x) * COS < 0;

function turnDeg(before: Point, corner: Point, after: Point): number {
  const [ax, ay] = [corner.x - before.x, corner.y - before.y];
  const [bx, by] = [after.x - corner.x, after.y - corner.y];
  return Math.abs((Math.atan2(ax * by - ay * bx, ax * bx + ay * by) * 180) / Math.PI);
}
