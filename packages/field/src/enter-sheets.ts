import { type CutFace, crossingFactor, cutFaceFactor, outerFactor } from './edge-field.ts';
import { enterStanding, enterThickness } from './enter-upright.ts';
import { dualSpacings, type Grid } from './grid.ts';
import { electricAlong, type Metal, magneticAlong, multiplyFactor } from './metal.ts';
import { elementAt, isNear, type NodePlane, nodesInPlane, type PlaneKind } from './node-plane.ts';
import { sheetDistance } from './outline.ts';
import type { Sheet } from './scene.ts';
import { AXES, type Axis } from './update.ts';

/** Enters all sheets into the grid. Returns for each sheet whether any edge of the grid lies in it. */
export function enterSheets(grid: Grid, sheets: readonly Sheet[], metal: Metal): boolean[] {
  const seen = new Map<Sheet, boolean>();
  for (const normal of AXES) {
    const own = sheets.filter((sheet) => sheet.normal === normal);
    let below: NodePlane | undefined;
    for (let p = 0; p < grid.lines[normal].length; p++) {
      const plane = nodesInPlane(grid, own, { normal, p }, below);
      if (plane) enterPlane(grid, plane, metal);
      if (plane) enterStanding(grid, plane, metal);
      if (plane && below) enterThickness(grid, below, plane, metal);
      for (const sheet of plane?.covering ?? []) seen.set(sheet, true);
      below = plane;
    }
  }
  return sheets.map((sheet) => seen.get(sheet) ?? false);
}

/** Edges and faces that lie in the plane. */
function enterPlane(grid: Grid, plane: NodePlane, metal: Metal): void {
  const { size, isMetal } = plane;
  for (let b = 0; b < size[1]; b++) {
    for (let a = 0; a < size[0]; a++) {
      const index = b * size[0] + a;
      if (a + 1 < size[0]) enterEdge(grid, plane, metal, { a, b, other: index + 1, along: 0 });
      if (b + 1 < size[1]) enterEdge(grid, plane, metal, { a, b, other: index + size[0], along: 1 });
      if (a + 1 === size[0] || b + 1 === size[1]) continue;
      const corners = [index, index + 1, index + size[0], index + size[0] + 1] as const;
      const count = corners.reduce((sum, n) => sum + (isMetal[n] as number), 0);
      if (count < 4 && (count > 0 || corners.some((n) => isNear(plane, n))))
        enterFace(grid, plane, metal, { a, b, corners });
    }
  }
}

interface PlaneEdge {
  readonly a: number;
  readonly b: number;
  readonly other: number;
  readonly along: 0 | 1;
}

function enterEdge(grid: Grid, plane: NodePlane, metal: Metal, { a, b, other, along }: PlaneEdge): void {
  const { distance, isMetal, nearest, kinds } = plane;
  const index = b * plane.size[0] + a;
  const sum = (isMetal[index] as number) + (isMetal[other] as number);
  if (sum === 0 && !isNear(plane, index) && !isNear(plane, other)) return;
  const [axis, cross] = along === 0 ? [plane.u, plane.v] : [plane.v, plane.u];
  const element = elementAt(grid, plane, a, b);
  const name = electricAlong(axis);
  if (sum === 2) {
    if (!crossesSlot(grid, plane, { a, b, other, along })) metal.inMetal[name][element] = 1;
    return;
  }
  const [inner, free] = (distance[index] as number) < (distance[other] as number) ? [index, other] : [other, index];
  const { kind, half } = kinds[nearest[inner] as number] as PlaneKind;
  const position = along === 0 ? [plane.from[0] + a, plane.from[1] + b] : [plane.from[1] + b, plane.from[0] + a];
  const lines = grid.lines[axis];
  const edge = {
    kind,
    half,
    metal: distance[inner] as number,
    free: distance[free] as number,
    length: (lines[(position[0] as number) + 1] as number) - (lines[position[0] as number] as number),
    width: dualWidth(grid, cross, position[1] as number),
  };
  multiplyFactor(metal.edgeFactor[name], element, sum === 0 ? outerFactor(edge) : crossingFactor(edge));
}

/** At a low wall the half cell stands for a whole one. */
const dualWidth = (grid: Grid, axis: Axis, n: number): number =>
  (n === 0 && grid.sides[axis].low !== 'open' ? 2 : 1) * (dualSpacings(grid.lines[axis])[n] as number);

/** Both nodes stand for metal, but between them lies a slot one cell wide. */
function crossesSlot(grid: Grid, plane: NodePlane, { a, b, other, along }: PlaneEdge): boolean {
  const { distance, reach, covering, size, from, u, v } = plane;
  const index = b * size[0] + a;
  const cell = plane.cell[index] as number;
  if ((distance[index] as number) < -cell && (distance[other] as number) < -cell) return false;
  const middle = (lines: Float64Array, n: number, isAlong: boolean) =>
    isAlong ? ((lines[n] as number) + (lines[n + 1] as number)) / 2 : (lines[n] as number);
  const pu = middle(grid.lines[u], from[0] + a, along === 0);
  const pv = middle(grid.lines[v], from[1] + b, along === 1);
  const inMiddle = Math.min(...covering.map((sheet) => sheetDistance(sheet, pu, pv)));
  return (
    inMiddle >
    Math.max(reach[index] as number, reach[other] as number, distance[index] as number, distance[other] as number)
  );
}

interface PlaneFace {
  readonly a: number;
  readonly b: number;
  readonly corners: readonly [number, number, number, number];
}

function enterFace(grid: Grid, plane: NodePlane, metal: Metal, { a, b, corners }: PlaneFace): void {
  const { distance, reach, isMetal, nearest, kinds } = plane;
  // Chosen by distance and not by order, so that a structure and its mirror image get the same factors.
  const onMetal = corners.filter((n) => isMetal[n]);
  const deciding = onMetal.length > 0 ? onMetal : corners;
  const inner = deciding.reduce((n, m) => ((distance[m] as number) < (distance[n] as number) ? m : n));
  const { kind, half } = kinds[nearest[inner] as number] as PlaneKind;
  const face: CutFace = {
    kind,
    half,
    corners: corners.map((n) => distance[n] as number) as unknown as CutFace['corners'],
    reach: Math.max(...deciding.map((n) => reach[n] as number)),
  };
  multiplyFactor(metal.faceFactor[magneticAlong(plane.normal)], elementAt(grid, plane, a, b), cutFaceFactor(face));
}
