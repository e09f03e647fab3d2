import { outlineArea, sheetDistance } from './outline.ts';
import { solidBox, wallName } from './planes.ts';
import {
  axisIndex,
  axisOfSpan,
  type LumpedElement,
  type Outline,
  type Position,
  planeAxes,
  type Scene,
  type Sheet,
  type Solid,
  type Wire,
} from './scene.ts';
import { AXES, type Axis } from './update.ts';

/** A plane across an axis in which the scene and its fields mirror. `metal`: E across it; `magnetic`: E along it. */
export interface SymmetryPlane {
  readonly at: number;
  readonly kind: 'metal' | 'magnetic';
  /** Whether only the high half is solved. */
  readonly used: boolean;
}

export type Symmetry = Readonly<Partial<Record<Axis, SymmetryPlane>>>;

/**
 * The planes of symmetry of a scene with one port. `use: false` finds them too, so that the grid has a line there and is
 * the same in both cases, but leaves the scene whole.
 */
export function findSymmetry(scene: Scene, { use }: { readonly use: boolean }): Symmetry {
  const found: Partial<Record<Axis, SymmetryPlane>> = {};
  for (const axis of AXES) {
    const plane = planeAcross(scene, axis);
    if (plane) found[axis] = { ...plane, used: use };
  }
  return found;
}

function planeAcross(scene: Scene, axis: Axis): Omit<SymmetryPlane, 'used'> | undefined {
  const [port] = scene.ports;
  if (scene.ports.length !== 1 || !port) return undefined;
  if (scene.walls?.[wallName(axis, 'Low')] || scene.walls?.[wallName(axis, 'High')]) return undefined;
  if (!openSidesMirror(scene, axis, (port.from[axisIndex(axis)] + port.to[axisIndex(axis)]) / 2)) return undefined;
  const n = axisIndex(axis);
  const at = (port.from[n] + port.to[n]) / 2;
  if (!isMirrored(scene, axis, at)) return undefined;
  return { at, kind: axisOfSpan(port.from, port.to) === axis ? 'metal' : 'magnetic' };
}

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
  const same = (a: readonly number[], b: readonly number[]) => a.every((value, m) => close(value, b[m] as number));
  const [from, to] = [flip(span.from), flip(span.to)];
  const placed = (same(from, other.from) && same(to, other.to)) || (same(from, other.to) && same(to, other.from));
  return placed && propertiesOf(span) === propertiesOf(other);
}

const propertiesOf = (span: Wire | LumpedElement) =>
  'radius' in span
    ? `${span.radius} ${span.conductivity}`
    : ['resistance', 'inductance', 'capacitance'].map((key) => (span as LumpedElement)[key as 'resistance']).join();
