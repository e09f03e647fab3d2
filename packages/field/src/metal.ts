import {
  type CutFace,
  crossingFactor,
  cutFaceFactor,
  type EdgeKind,
  type HalfCells,
  outerFactor,
  uprightFactor,
} from './edge-field.ts';
import { dualSpacings, type Grid, nodeCounts, spacings } from './grid.ts';
import { outlineBounds, sheetDistance } from './outline.ts';
import { planeAxes, type Sheet } from './scene.ts';
import { AXES, type Axis, type ElectricName, type MagneticName } from './update.ts';

/**
 * What metal does to the edges and faces of the grid. Index of element (i, j, k): `(k * ny + j) * nx + i`.
 */
export interface Metal {
  /** 1 where an edge lies in metal. */
  readonly inMetal: Readonly<Record<ElectricName, Uint8Array>>;
  /** Capacitance of an edge relative to free space; 1 where there is no entry. */
  readonly edgeFactor: Readonly<Record<ElectricName, Map<number, number>>>;
  /** Factor cm of a face; 1 where there is no entry. */
  readonly faceFactor: Readonly<Record<MagneticName, Map<number, number>>>;
}

export function noMetal(grid: Grid): Metal {
  const { nx, ny, nz } = nodeCounts(grid);
  const mask = () => new Uint8Array(nx * ny * nz);
  const map = () => new Map<number, number>();
  return {
    inMetal: { ex: mask(), ey: mask(), ez: mask() },
    edgeFactor: { ex: map(), ey: map(), ez: map() },
    faceFactor: { hx: map(), hy: map(), hz: map() },
  };
}

/** Distance in memory between neighbours along each axis. */
export function strides(grid: Grid): Readonly<Record<Axis, number>> {
  const { nx, ny } = nodeCounts(grid);
  return { x: 1, y: nx, z: nx * ny };
}

const electricAlong = (axis: Axis): ElectricName => `e${axis}`;
const magneticAlong = (axis: Axis): MagneticName => `h${axis}`;

/** Enters all sheets into the grid. Returns for each sheet whether any edge of the grid lies in it. */
export function enterSheets(grid: Grid, sheets: readonly Sheet[], metal: Metal): boolean[] {
  const seen = new Map<Sheet, boolean>();
  for (const normal of AXES) {
    const own = sheets.filter((sheet) => sheet.normal === normal);
    let below: NodePlane | undefined;
    for (let p = 0; p < grid.lines[normal].length; p++) {
      const plane = nodesInPlane(grid, own, { normal, p });
      if (plane) enterPlane(grid, plane, metal);
      if (plane) enterStanding(grid, plane, metal);
      if (plane && below) enterThickness(grid, below, plane, metal);
      for (const sheet of plane?.covering ?? []) seen.set(sheet, true);
      below = plane;
    }
  }
  return sheets.map((sheet) => seen.get(sheet) ?? false);
}

interface PlanePlace {
  readonly normal: Axis;
  readonly p: number;
}

/** Nodes of one plane of the grid, in a window around the sheets that lie in it. */
interface NodePlane extends PlanePlace {
  readonly u: Axis;
  readonly v: Axis;
  readonly from: readonly [number, number];
  readonly size: readonly [number, number];
  /** Signed distance of each node to the nearest metal, m; index (v - from) * size[0] + (u - from). */
  readonly distance: Float64Array;
  /** Distance below which a node counts as metal. */
  readonly reach: Float64Array;
  readonly isMetal: Uint8Array;
  /** Change of the distance over one cell along each axis of the plane, and the larger of the two. */
  readonly slope: readonly [Float64Array, Float64Array];
  readonly cell: Float64Array;
  /** Number in `covering` of the nearest sheet. */
  readonly nearest: Uint8Array;
  readonly covering: readonly Sheet[];
  readonly kinds: readonly PlaneKind[];
}

interface PlaneKind {
  readonly kind: EdgeKind;
  /** On which sides the plane is the surface of the metal: 0 above, -1 below. */
  readonly outerSides: readonly (0 | -1)[];
  readonly half: HalfCells;
}

const NEAR = 1e-9;

const covers = (sheet: Sheet, at: number) => at >= sheet.at - NEAR && at <= sheet.at + sheet.thickness + NEAR;

function nodesInPlane(grid: Grid, sheets: readonly Sheet[], { normal, p }: PlanePlace): NodePlane | undefined {
  const lines = grid.lines[normal];
  const at = lines[p] as number;
  const covering = sheets.filter((sheet) => covers(sheet, at));
  if (covering.length === 0) return undefined;
  const [u, v] = planeAxes(normal);
  const bounds = covering.map((sheet) => outlineBounds(sheet.outline));
  const window = ([u, v] as const).map((axis, n) => {
    const low = Math.min(...bounds.map((b) => b.low[n] as number));
    const high = Math.max(...bounds.map((b) => b.high[n] as number));
    return indexWindow(grid.lines[axis], low, high);
  }) as [Window, Window];
  const size = [window[0].count, window[1].count] as const;
  const nodes = size[0] * size[1];
  const plane: NodePlane = {
    normal,
    p,
    u,
    v,
    from: [window[0].from, window[1].from],
    size,
    distance: new Float64Array(nodes),
    reach: new Float64Array(nodes),
    isMetal: new Uint8Array(nodes),
    slope: [new Float64Array(nodes), new Float64Array(nodes)],
    cell: new Float64Array(nodes),
    nearest: new Uint8Array(nodes),
    covering,
    kinds: covering.map((sheet) => kindOf(sheet, lines, p)),
  };
  measureNodes(grid, plane);
  return plane;
}

interface Window {
  readonly from: number;
  readonly count: number;
}

function indexWindow(lines: Float64Array, low: number, high: number): Window {
  let from = 0;
  while (from < lines.length - 1 && (lines[from + 1] as number) < low) from++;
  let to = lines.length - 1;
  while (to > 0 && (lines[to - 1] as number) > high) to--;
  return { from: Math.max(0, from - 1), count: Math.min(lines.length - 1, to + 1) - Math.max(0, from - 1) + 1 };
}

function kindOf(sheet: Sheet, lines: Float64Array, p: number): PlaneKind {
  const at = lines[p] as number;
  const below = p > 0 ? (at - (lines[p - 1] as number)) / 2 : 0;
  const above = p < lines.length - 1 ? ((lines[p + 1] as number) - at) / 2 : 0;
  if (sheet.thickness === 0) return { kind: 'thin', outerSides: [0, -1], half: { inner: below, outer: above } };
  const isBottom = at < sheet.at + NEAR;
  const isTop = at > sheet.at + sheet.thickness - NEAR;
  if (isBottom) return { kind: 'corner', outerSides: [-1], half: { inner: above, outer: below } };
  return { kind: isTop ? 'corner' : 'wall', outerSides: isTop ? [0] : [], half: { inner: below, outer: above } };
}

function measureNodes(grid: Grid, plane: NodePlane): void {
  const { u, v, from, size, distance, nearest, covering } = plane;
  for (let b = 0; b < size[1]; b++) {
    for (let a = 0; a < size[0]; a++) {
      const [pu, pv] = [grid.lines[u][from[0] + a] as number, grid.lines[v][from[1] + b] as number];
      const all = covering.map((sheet) => sheetDistance(sheet, pu, pv));
      const index = b * size[0] + a;
      distance[index] = Math.min(...all);
      nearest[index] = all.indexOf(distance[index] as number);
    }
  }
  markMetal(grid, plane);
}

/** Part of a cell by which a node may lie outside a metal edge and still stand for it. */
const REACH: Readonly<Record<EdgeKind, number>> = { thin: 0.3, corner: 0.35, wall: 0.5 };

function markMetal(grid: Grid, plane: NodePlane): void {
  const { u, v, from, size, distance, reach, isMetal, nearest, kinds } = plane;
  const step = (index: number, stride: number, position: number, count: number) => {
    const [low, high] = [Math.max(0, position - 1), Math.min(count - 1, position + 1)];
    return (
      Math.abs(
        (distance[index + (high - position) * stride] as number) -
          (distance[index + (low - position) * stride] as number),
      ) / Math.max(1, high - low)
    );
  };
  const cells = { u: grid.lines[u], v: grid.lines[v] };
  for (let b = 0; b < size[1]; b++) {
    for (let a = 0; a < size[0]; a++) {
      const index = b * size[0] + a;
      // Distance over one cell along the normal of the edge: the larger of the two steps is good enough.
      const [du, dv] = [step(index, 1, a, size[0]), step(index, size[0], b, size[1])];
      plane.slope[0][index] = du;
      plane.slope[1][index] = dv;
      const cell = Math.max(du, dv);
      plane.cell[index] = cell;
      const kind = (kinds[nearest[index] as number] as PlaneKind).kind;
      const outermost = a + from[0] === 0 || b + from[1] === 0 || a + from[0] === cells.u.length - 1;
      reach[index] = outermost ? NEAR : NEAR + REACH[kind] * cell;
      isMetal[index] = (distance[index] as number) <= (reach[index] as number) ? 1 : 0;
    }
  }
}

const elementAt = (grid: Grid, plane: NodePlane, a: number, b: number) => {
  const stride = strides(grid);
  return plane.p * stride[plane.normal] + (plane.from[0] + a) * stride[plane.u] + (plane.from[1] + b) * stride[plane.v];
};

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
    metal.inMetal[name][element] = 1;
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
    width: dualSpacings(grid.lines[cross])[position[1] as number] as number,
  };
  multiplyFactor(metal.edgeFactor[name], element, sum === 0 ? outerFactor(edge) : crossingFactor(edge));
}

/** Within one and a half cells of the edge of the metal, on either side. */
const isNear = ({ distance, cell }: NodePlane, index: number) =>
  Math.abs(distance[index] as number) < NEAR_CELLS * (cell[index] as number);

const NEAR_CELLS = 1.5;

function multiplyFactor(factors: Map<number, number>, element: number, factor: number): void {
  factors.set(element, (factors.get(element) ?? 1) * factor);
}

interface PlaneFace {
  readonly a: number;
  readonly b: number;
  readonly corners: readonly [number, number, number, number];
}

function enterFace(grid: Grid, plane: NodePlane, metal: Metal, { a, b, corners }: PlaneFace): void {
  const { distance, reach, isMetal, nearest, kinds } = plane;
  const onMetal = corners.find((n) => isMetal[n]) ?? corners[0];
  const { kind, half } = kinds[nearest[onMetal] as number] as PlaneKind;
  const face: CutFace = {
    kind,
    half,
    corners: corners.map((n) => distance[n] as number) as unknown as CutFace['corners'],
    reach: reach[onMetal] as number,
  };
  multiplyFactor(metal.faceFactor[magneticAlong(plane.normal)], elementAt(grid, plane, a, b), cutFaceFactor(face));
}

/** Upright edges and faces that stand on the plane near the edge of its metal. */
function enterStanding(grid: Grid, plane: NodePlane, metal: Metal): void {
  const { size, nearest, kinds, p, normal } = plane;
  const cells = spacings(grid.lines[normal]);
  const stride = strides(grid)[normal];
  for (let b = 0; b < size[1]; b++) {
    for (let a = 0; a < size[0]; a++) {
      const index = b * size[0] + a;
      if (!isNear(plane, index)) continue;
      const { kind, outerSides } = kinds[nearest[index] as number] as PlaneKind;
      for (const side of outerSides) {
        const height = cells[p + side];
        if (height === undefined) continue;
        const place = { a, b, index, kind, height, element: elementAt(grid, plane, a, b) + side * stride };
        enterStandingAt(plane, metal, place);
      }
    }
  }
}

interface StandingPlace {
  readonly a: number;
  readonly b: number;
  readonly index: number;
  readonly kind: EdgeKind;
  readonly height: number;
  readonly element: number;
}

function enterStandingAt(plane: NodePlane, metal: Metal, { a, b, index, kind, height, element }: StandingPlace): void {
  const { slope, size, distance, isMetal } = plane;
  const [du, dv] = [slope[0][index] as number, slope[1][index] as number];
  const width = Math.hypot(du, dv);
  const at = (d: number) => uprightFactor({ kind, distance: d, height, width, onMetal: isMetal[index] === 1 });
  multiplyFactor(metal.edgeFactor[electricAlong(plane.normal)], element, at(distance[index] as number));
  // A face across u holds the flux of currents along v: the more the edge runs along v, the more it counts.
  const share = [du, dv].map((step) => step ** 2 / width ** 2) as [number, number];
  const faces = [
    [b + 1 < size[1] ? index + size[0] : -1, plane.u, share[0]],
    [a + 1 < size[0] ? index + 1 : -1, plane.v, share[1]],
  ] as const;
  for (const [other, normal, weight] of faces) {
    if (other < 0 || !(weight > 0.05)) continue;
    const factor = at(((distance[index] as number) + (distance[other] as number)) / 2);
    multiplyFactor(metal.faceFactor[magneticAlong(normal)], element, 1 + (factor - 1) * weight);
  }
}

/** Edges and faces between two planes that lie in the same thick sheet. */
function enterThickness(grid: Grid, below: NodePlane, above: NodePlane, metal: Metal): void {
  const thick = below.covering.filter((sheet) => sheet.thickness > 0 && above.covering.includes(sheet));
  if (thick.length === 0) return;
  const lines = grid.lines;
  const distanceAt = (a: number, b: number) => {
    const [pu, pv] = [lines[below.u][below.from[0] + a] as number, lines[below.v][below.from[1] + b] as number];
    return Math.min(...thick.map((sheet) => sheetDistance(sheet, pu, pv)));
  };
  const inside = new Float64Array(below.size[0] * below.size[1]);
  for (let b = 0; b < below.size[1]; b++) {
    for (let a = 0; a < below.size[0]; a++) inside[b * below.size[0] + a] = distanceAt(a, b);
  }
  enterUpright(grid, { below, inside }, metal);
}

interface Upright {
  readonly below: NodePlane;
  readonly inside: Float64Array;
}

function enterUpright(grid: Grid, { below, inside }: Upright, metal: Metal): void {
  const { size, reach } = below;
  const isMetal = (index: number) => (inside[index] as number) <= (reach[index] as number);
  for (let b = 0; b < size[1]; b++) {
    for (let a = 0; a < size[0]; a++) {
      const index = b * size[0] + a;
      const element = elementAt(grid, below, a, b);
      if (isMetal(index)) metal.inMetal[electricAlong(below.normal)][element] = 1;
      const neighbours = [
        [a + 1 < size[0] ? index + 1 : -1, below.v, below.u, below.from[0] + a],
        [b + 1 < size[1] ? index + size[0] : -1, below.u, below.v, below.from[1] + b],
      ] as const;
      for (const [other, faceNormal, along, position] of neighbours) {
        if (other < 0 || isMetal(index) === isMetal(other)) continue;
        const length = (grid.lines[along][position + 1] as number) - (grid.lines[along][position] as number);
        const [hit, free] = isMetal(index) ? [index, other] : [other, index];
        const open =
          (inside[free] as number) / Math.max(0.25 * length, (inside[free] as number) - (inside[hit] as number));
        metal.faceFactor[magneticAlong(faceNormal)].set(element, Math.min(2, Math.max(0.6, 1 / open)));
      }
    }
  }
}
