import type { EdgeKind, HalfCells } from './edge-field.ts';
import type { Grid } from './grid.ts';
import { strides } from './metal.ts';
import { outlineBounds, type PlaneBounds, sheetDistance } from './outline.ts';
import { planeAxes, type Sheet } from './scene.ts';
import type { Axis } from './update.ts';

export interface PlanePlace {
  readonly normal: Axis;
  readonly p: number;
}

/** Nodes of one plane of the grid, in a window around the sheets that lie in it. */
export interface NodePlane extends PlanePlace {
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

export interface PlaneKind {
  readonly kind: EdgeKind;
  /** On which sides the plane is the surface of the metal: 0 above, -1 below. */
  readonly outerSides: readonly (0 | -1)[];
  readonly half: HalfCells;
}

const NEAR = 1e-9;

const covers = (sheet: Sheet, at: number) => at >= sheet.at - NEAR && at <= sheet.at + sheet.thickness + NEAR;

/** `before` may be the plane one lower: where the same sheets lie in it, its distances are taken over. */
export function nodesInPlane(
  grid: Grid,
  sheets: readonly Sheet[],
  { normal, p }: PlanePlace,
  before?: NodePlane,
): NodePlane | undefined {
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
  const isSame = before?.covering.length === covering.length && before.covering.every((one, n) => one === covering[n]);
  const plane: NodePlane = {
    normal,
    p,
    u,
    v,
    from: [window[0].from, window[1].from],
    size,
    distance: isSame ? before.distance : new Float64Array(nodes),
    reach: new Float64Array(nodes),
    isMetal: new Uint8Array(nodes),
    slope: [new Float64Array(nodes), new Float64Array(nodes)],
    cell: new Float64Array(nodes),
    nearest: isSame ? before.nearest : new Uint8Array(nodes),
    covering,
    kinds: covering.map((sheet) => kindOf(sheet, lines, p)),
  };
  if (!isSame) measureNodes(grid, plane);
  markMetal(grid, plane);
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

function measureNodes(grid: Grid, { u, v, from, size, distance, nearest, covering }: NodePlane): void {
  const bounds = covering.map((sheet) => outlineBounds(sheet.outline));
  for (let b = 0; b < size[1]; b++) {
    for (let a = 0; a < size[0]; a++) {
      const [pu, pv] = [grid.lines[u][from[0] + a] as number, grid.lines[v][from[1] + b] as number];
      let best = Number.POSITIVE_INFINITY;
      let number = 0;
      for (let n = 0; n < covering.length; n++) {
        // No metal is nearer than the rectangle around it.
        if (best < Number.POSITIVE_INFINITY && boxDistance(bounds[n] as PlaneBounds, pu, pv) > Math.max(0, best))
          continue;
        const found = sheetDistance(covering[n] as Sheet, pu, pv);
        if (found < best) {
          best = found;
          number = n;
        }
      }
      distance[b * size[0] + a] = best;
      nearest[b * size[0] + a] = number;
    }
  }
}

const boxDistance = ({ low, high }: PlaneBounds, u: number, v: number): number =>
  Math.hypot(Math.max(0, low[0] - u, u - high[0]), Math.max(0, low[1] - v, v - high[1]));

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
  const last = grid.lines[u].length - 1;
  // At a low wall the metal goes on as its own mirror image: there its distance has no slope across.
  const isMirrored = (axis: Axis, position: number) => position === 0 && grid.sides[axis].low !== 'open';
  for (let b = 0; b < size[1]; b++) {
    for (let a = 0; a < size[0]; a++) {
      const index = b * size[0] + a;
      // Distance over one cell along the normal of the edge: the larger of the two steps is good enough.
      const du = isMirrored(u, a + from[0]) ? 0 : step(index, 1, a, size[0]);
      const dv = isMirrored(v, b + from[1]) ? 0 : step(index, size[0], b, size[1]);
      plane.slope[0][index] = du;
      plane.slope[1][index] = dv;
      const cell = Math.max(du, dv);
      plane.cell[index] = cell;
      const kind = (kinds[nearest[index] as number] as PlaneKind).kind;
      const isOutermost = (axis: Axis, position: number) => position === 0 && grid.sides[axis].low === 'open';
      const outermost = isOutermost(u, a + from[0]) || isOutermost(v, b + from[1]) || a + from[0] === last;
      reach[index] = outermost ? NEAR : NEAR + REACH[kind] * cell;
      isMetal[index] = (distance[index] as number) <= (reach[index] as number) ? 1 : 0;
    }
  }
}

/** Index, as in `Metal`, of the element at a node of the window. */
export const elementAt = (grid: Grid, plane: NodePlane, a: number, b: number) => {
  const stride = strides(grid);
  return plane.p * stride[plane.normal] + (plane.from[0] + a) * stride[plane.u] + (plane.from[1] + b) * stride[plane.v];
};

/** Within one and a half cells of the edge of the metal, on either side. */
export const isNear = ({ distance, cell }: NodePlane, index: number) =>
  Math.abs(distance[index] as number) < NEAR_CELLS * (cell[index] as number);

const NEAR_CELLS = 1.5;
