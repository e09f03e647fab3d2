import { outlineArea, sheetDistance } from './outline.ts';
import { solidBox, wallName } from './planes.ts';
import {
  axisIndex,
  type LumpedElement,
  type Outline,
  type Port,
  type Position,
  planeAxes,
  type Scene,
  type Sheet,
  type Solid,
  type Wire,
} from './scene.ts';
import { AXES, type Axis } from './update.ts';

/** Whether all of a scene but its ports mirrors in the plane across this axis. */
export function sceneMirrors(scene: Scene, axis: Axis, at: number): boolean {
  if (scene.walls?.[wallName(axis, 'Low')] || scene.walls?.[wallName(axis, 'High')]) return false;
  return openSidesMirror(scene, axis, at) && isMirrored(scene, axis, at);
}

/** Where a port lands when it is mirrored, and whether its terminals change places (-1). */
export interface MirroredPort {
  readonly to: number;
  readonly sign: 1 | -1;
}

/** Where each port lands in the mirror; undefined when one of them lands on no port of its kind. */
export function portsMirrored({ ports }: Scene, axis: Axis, at: number): MirroredPort[] | undefined {
  const n = axisIndex(axis);
  const flip = (p: Position) => p.map((value, m) => (m === n ? 2 * at - value : value));
  const images = ports.map((port): MirroredPort | undefined => {
    const [from, to] = [flip(port.from), flip(port.to)];
    for (const [number, other] of ports.entries()) {
      if (!sameKind(port, other)) continue;
      if (samePlace(from, other.from) && samePlace(to, other.to)) return { to: number, sign: 1 };
      if (samePlace(from, other.to) && samePlace(to, other.from)) return { to: number, sign: -1 };
    }
    return undefined;
  });
  return images.every((image) => image !== undefined) ? images : undefined;
}

const sameKind = (port: Port, other: Port) => port.resistance === other.resistance && port.radius === other.radius;

const samePlace = (a: readonly number[], b: readonly number[]) => a.every((value, m) => close(value, b[m] as number));

function openSidesMirror({ openAt }: Scene, axis: Axis, at: number): boolean {
  const [low, high] = [openAt?.[wallName(axis, 'Low')], openAt?.[wallName(axis, 'High')]];
  if (low === undefined || high === undefined) return low === high;
  return close(low + high, 2 * at);
}

const close = (a: number, b: number) => a === b || Math.abs(a - b) < 1e-9;

function isMirrored(scene: Scene, axis: Axis, at: number): boolean {
  const mirror = (value: number) => 2 * at - value;
  const spans = [...scene.wires, ...(scene.elements ?? [])];
  return (
    scene.sheets.every((sheet) => scene.sheets.some((other) => sheetsMirror(sheet, other, { axis, mirror }))) &&
    scene.solids.every((solid) => scene.solids.some((other) => solidsMirror(solid, other, { axis, mirror }))) &&
    spans.every((span) => spans.some((other) => spansMirror(span, other, { axis, mirror })))
  );
}

interface Mirror {
  readonly axis: Axis;
  readonly mirror: (value: number) => number;
}

function sheetsMirror(sheet: Sheet, other: Sheet, { axis, mirror }: Mirror): boolean {
  if (sheet.normal !== other.normal || !close(sheet.thickness, other.thickness)) return false;
  if (sheet.conductivity !== other.conductivity) return false;
  const n = planeAxes(sheet.normal).indexOf(axis);
  if (n < 0) {
    return close(mirror(sheet.at + sheet.thickness), other.at) && sameMetal(sheet, other, (p) => p);
  }
  const flip = (p: readonly [number, number]): [number, number] =>
    n === 0 ? [mirror(p[0]), p[1]] : [p[0], mirror(p[1])];
  return close(sheet.at, other.at) && sameMetal(sheet, other, flip);
}

/** Every corner and a net of points of each mirrored metal edge lie on the edge of the other, and the areas agree. */
function sameMetal(
  sheet: Sheet,
  other: Sheet,
  flip: (p: readonly [number, number]) => readonly [number, number],
): boolean {
  const outlines = [sheet.outline, ...(sheet.holes ?? [])];
  const others = [other.outline, ...(other.holes ?? [])];
  if (outlines.length !== others.length || !close(totalArea(outlines) * 1e3, totalArea(others) * 1e3)) return false;
  return outlines.every((outline) =>
    edgePoints(outline).every((point) => Math.abs(sheetDistance(other, ...flip(point))) < 1e-9),
  );
}

const totalArea = (outlines: readonly Outline[]) => outlines.reduce((sum, outline) => sum + outlineArea(outline), 0);

function edgePoints(outline: Outline): (readonly [number, number])[] {
  if (outline.kind === 'disc') {
    const { centre, radius } = outline;
    return [0, 1, 2, 3, 4, 5, 6].map(
      (n) => [centre[0] + radius * Math.cos(n), centre[1] + radius * Math.sin(n)] as const,
    );
  }
  return outline.points.flatMap((point, n) => {
    const next = outline.points[(n + 1) % outline.points.length] as readonly [number, number];
    return [point, [(2 * point[0] + next[0]) / 3, (2 * point[1] + next[1]) / 3] as const];
  });
}

function solidsMirror(solid: Solid, other: Solid, { axis, mirror }: Mirror): boolean {
  if (solid.shape.kind !== other.shape.kind || solid.permittivity !== other.permittivity) return false;
  if ((solid.lossTangent ?? 0) !== (other.lossTangent ?? 0)) return false;
  if (solid.shape.kind === 'cylinder' && other.shape.kind === 'cylinder' && solid.shape.axis !== other.shape.axis)
    return false;
  return boxesMirror(solidBox(solid), solidBox(other), { axis, mirror });
}

function boxesMirror(
  box: readonly [Position, Position],
  other: readonly [Position, Position],
  { axis, mirror }: Mirror,
): boolean {
  return AXES.every((each, n) => {
    const [low, high] = [box[0][n] as number, box[1][n] as number];
    const [wantedLow, wantedHigh] = each === axis ? [mirror(high), mirror(low)] : [low, high];
    return close(other[0][n] as number, wantedLow) && close(other[1][n] as number, wantedHigh);
  });
}

function spansMirror(span: Wire | LumpedElement, other: Wire | LumpedElement, { axis, mirror }: Mirror): boolean {
  const n = axisIndex(axis);
  const flip = (p: Position) => p.map((value, m) => (m === n ? mirror(value) : value));
  const [from, to] = [flip(span.from), flip(span.to)];
  const placed =
    (samePlace(from, other.from) && samePlace(to, other.to)) ||
    (samePlace(from, other.to) && samePlace(to, other.from));
  return placed && propertiesOf(span) === propertiesOf(other);
}

const propertiesOf = (span: Wire | LumpedElement) =>
  'radius' in span
    ? `${span.radius} ${span.conductivity}`
    : ['resistance', 'inductance', 'capacitance'].map((key) => (span as LumpedElement)[key as 'resistance']).join();
