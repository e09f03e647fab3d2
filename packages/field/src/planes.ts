import { outlineBounds, type PlaneBounds } from './outline.ts';
import { axisIndex, type Position, planeAxes, type Scene, type Sheet, type Solid, type WallName } from './scene.ts';
import { AXES, type Axis } from './update.ts';

/** A flat face across one axis: of a sheet, of a solid or of a wall. */
export interface Plane {
  readonly at: number;
  /** Undefined for a wall: it reaches everywhere. */
  readonly bounds?: PlaneBounds;
  readonly kind: 'sheet' | 'solid' | 'wall';
  /** Of the sheet or solid, where it has one. */
  readonly resolution?: number | undefined;
}

/** Corners of a box around a sheet, m. */
export function sheetBox(sheet: Sheet): readonly [Position, Position] {
  const { low, high } = outlineBounds(sheet.outline);
  const [u, v] = planeAxes(sheet.normal);
  const corner = (point: readonly [number, number], along: number): Position => {
    const position: [number, number, number] = [0, 0, 0];
    position[axisIndex(u)] = point[0];
    position[axisIndex(v)] = point[1];
    position[axisIndex(sheet.normal)] = along;
    return position;
  };
  return [corner(low, sheet.at), corner(high, sheet.at + sheet.thickness)];
}

export function solidBox({ shape }: Solid): readonly [Position, Position] {
  if (shape.kind === 'box') return [shape.low, shape.high];
  const { axis, centre, radius } = shape;
  const disc = { kind: 'disc', centre, radius } as const;
  return sheetBox({ name: '', normal: axis, at: shape.from, thickness: shape.to - shape.from, outline: disc });
}

export interface PartBox {
  /** `sheets[1]`. */
  readonly path: string;
  readonly name: string;
  readonly box: readonly [Position, Position];
}

/** Boxes around all that is in the scene, each with what it belongs to. */
export function partBoxes(scene: Scene): PartBox[] {
  const boxed = <T extends { readonly name: string }>(list: string, parts: readonly T[], boxOf: (part: T) => Box) =>
    parts.map((part, n): PartBox => ({ path: `${list}[${n}]`, name: part.name, box: boxOf(part) }));
  return [
    ...boxed('sheets', scene.sheets, sheetBox),
    ...boxed('solids', scene.solids, solidBox),
    ...boxed('wires', scene.wires, spanBox),
    ...boxed('ports', scene.ports, spanBox),
    ...boxed('elements', scene.elements ?? [], spanBox),
  ];
}

export const sceneBoxes = (scene: Scene): Box[] => partBoxes(scene).map(({ box }) => box);

type Box = readonly [Position, Position];

function spanBox({ from, to }: { readonly from: Position; readonly to: Position }): Box {
  const low = AXES.map((_, n) => Math.min(from[n] as number, to[n] as number));
  const high = AXES.map((_, n) => Math.max(from[n] as number, to[n] as number));
  return [low, high] as unknown as Box;
}

const boxBounds = ([low, high]: readonly [Position, Position], axis: Axis): PlaneBounds => {
  const [u, v] = planeAxes(axis);
  return {
    low: [low[axisIndex(u)], low[axisIndex(v)]],
    high: [high[axisIndex(u)], high[axisIndex(v)]],
  };
};

export const wallName = (axis: Axis, side: 'Low' | 'High'): WallName => `${axis}${side}`;

/** All flat faces across this axis, in rising order. */
function planesAcross(scene: Scene, axis: Axis): Plane[] {
  const planes: Plane[] = [];
  for (const sheet of scene.sheets) {
    if (sheet.normal !== axis) continue;
    const bounds = boxBounds(sheetBox(sheet), axis);
    const face = { bounds, kind: 'sheet', resolution: sheet.resolution } as const;
    planes.push({ ...face, at: sheet.at });
    if (sheet.thickness > 0) planes.push({ ...face, at: sheet.at + sheet.thickness });
  }
  for (const solid of scene.solids) {
    if (solid.shape.kind === 'cylinder' && solid.shape.axis !== axis) continue;
    const box = solidBox(solid);
    const bounds = boxBounds(box, axis);
    for (const corner of box) {
      if (Number.isFinite(corner[axisIndex(axis)])) planes.push({ at: corner[axisIndex(axis)], bounds, kind: 'solid' });
    }
  }
  for (const side of ['Low', 'High'] as const) {
    const wall = scene.walls?.[wallName(axis, side)];
    if (wall) planes.push({ at: wall.at, kind: 'wall' });
  }
  return planes.sort((a, b) => a.at - b.at);
}

const overlap = (a: PlaneBounds | undefined, b: PlaneBounds | undefined) =>
  !a ||
  !b ||
  [0, 1].every((n) => (a.low[n] as number) < (b.high[n] as number) && (b.low[n] as number) < (a.high[n] as number));

/** Two faces across an axis with nothing between them. */
export interface Gap {
  readonly from: number;
  readonly to: number;
  readonly planes: readonly [Plane, Plane];
}

/** For each face the gap to the next one above that faces it; of several at one height, to the widest. */
export function gapsAcross(scene: Scene, axis: Axis): Gap[] {
  const planes = planesAcross(scene, axis);
  return planes.flatMap((plane, n) => {
    const facing = planes
      .slice(n + 1)
      .filter((other) => other.at - plane.at > 1e-9 && overlap(plane.bounds, other.bounds));
    const [first] = facing;
    if (!first) return [];
    const level = facing.filter((other) => other.at - first.at < 1e-9);
    const next = level.reduce((a, b) => (area(b.bounds) > area(a.bounds) ? b : a), first);
    return [{ from: plane.at, to: next.at, planes: [plane, next] as const }];
  });
}

const area = (bounds: PlaneBounds | undefined): number =>
  bounds ? (bounds.high[0] - bounds.low[0]) * (bounds.high[1] - bounds.low[1]) : Number.POSITIVE_INFINITY;

/** What two faces have in common, seen along their axis; undefined when both reach everywhere. */
export function facingBounds({ planes: [a, b] }: Gap): PlaneBounds | undefined {
  if (!a.bounds || !b.bounds) return a.bounds ?? b.bounds;
  const pick = (n: 0 | 1, side: 'low' | 'high') =>
    (side === 'low' ? Math.max : Math.min)(a.bounds?.[side][n] ?? 0, b.bounds?.[side][n] ?? 0);
  return { low: [pick(0, 'low'), pick(1, 'low')], high: [pick(0, 'high'), pick(1, 'high')] };
}
