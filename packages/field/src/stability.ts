import { SPEED_OF_LIGHT } from './constants.ts';
import { dualSpacings, type Grid, nodeCounts, spacings } from './grid.ts';
import { type Metal, strides } from './metal.ts';
import { axisIndex } from './scene.ts';
import {
  AXES,
  type Axis,
  type ComponentUpdate,
  type ElectricName,
  MAGNETIC_UPDATES,
  type MagneticName,
} from './update.ts';

/**
 * The update is stable when no eigenvalue of dt^2 M C N C' exceeds 4 (C the curl, N and M the factors of edges and
 * faces). A row of absolute values that sums to 4 or less is safe (Gershgorin's theorem); a plain grid at its own limit
 * reaches 16/3 with eigenvalues of 4, so that a row which does not exceed that of the same cell without factors is
 * taken as safe too. Where a sub-cell factor would break this, the factor of the face is reduced until it does not: the
 * field there gets a little more room, and the time step need not shrink.
 */
export function tameFactors(grid: Grid, dt: number, metal: Metal): number {
  const context = makeContext(grid, dt, metal);
  let tamed = 0;
  for (const update of MAGNETIC_UPDATES) {
    const name = update.component as MagneticName;
    for (const element of facesNearFactors(context, update)) {
      const node = nodeOf(grid, element);
      const plain = rowSum(context, update, node, false);
      const found = rowSum(context, update, node, true);
      const allowed = Math.max(SAFE_ROW, plain);
      if (!(found > allowed)) continue;
      metal.faceFactor[name].set(element, ((metal.faceFactor[name].get(element) ?? 1) * allowed) / found);
      tamed++;
    }
  }
  return tamed;
}

const SAFE_ROW = 4 * 0.98;

interface Context {
  readonly grid: Grid;
  readonly metal: Metal;
  readonly stride: Readonly<Record<Axis, number>>;
  /** c dt over the spacing of each axis, primary and dual. */
  readonly primary: Readonly<Record<Axis, Float64Array>>;
  readonly dual: Readonly<Record<Axis, Float64Array>>;
}

function makeContext(grid: Grid, dt: number, metal: Metal): Context {
  const inverse = (lengths: Float64Array) => lengths.map((length) => (SPEED_OF_LIGHT * dt) / length);
  const each = (make: (lines: Float64Array) => Float64Array) =>
    Object.fromEntries(AXES.map((axis) => [axis, inverse(make(grid.lines[axis]))])) as Record<Axis, Float64Array>;
  return { grid, metal, stride: strides(grid), primary: each(spacings), dual: each(dualSpacings) };
}

type Node = readonly [number, number, number];

function nodeOf(grid: Grid, element: number): Node {
  const { nx, ny } = nodeCounts(grid);
  const row = Math.floor(element / nx);
  return [element - row * nx, row % ny, Math.floor(row / ny)];
}

/** Faces with a factor, and faces with an edge that has one. */
function facesNearFactors({ metal, stride }: Context, update: ComponentUpdate): Set<number> {
  const faces = new Set(metal.faceFactor[update.component as MagneticName].keys());
  for (const term of [update.plus, update.minus]) {
    for (const element of metal.edgeFactor[term.of as ElectricName].keys()) {
      faces.add(element);
      faces.add(element - stride[term.axis]);
    }
  }
  return faces;
}

/** Row of one face: its factor, times over its four edges, times over the four faces of each edge. */
function rowSum(context: Context, update: ComponentUpdate, node: Node, withFactors: boolean): number {
  const { metal, primary, stride, grid } = context;
  const { nx, ny } = nodeCounts(grid);
  const element = (node[2] * ny + node[1]) * nx + node[0];
  let sum = 0;
  for (const { axis, of } of [update.plus, update.minus]) {
    const name = of as ElectricName;
    const inverse = primary[axis][node[axisIndex(axis)]];
    if (inverse === undefined) continue;
    for (let ahead = 0; ahead < 2; ahead++) {
      const edge = element + ahead * stride[axis];
      if (metal.inMetal[name][edge]) continue;
      const share = withFactors ? 1 / (metal.edgeFactor[name].get(edge) ?? 1) : 1;
      sum += inverse * share * edgeSum(context, name, node, axis, ahead);
    }
  }
  return sum * (withFactors ? (metal.faceFactor[update.component as MagneticName].get(element) ?? 1) : 1);
}

const ACROSS: Readonly<Record<ElectricName, readonly [Axis, Axis]>> = {
  ex: ['y', 'z'],
  ey: ['z', 'x'],
  ez: ['x', 'y'],
};

/** Over the four faces of the edge at a node, or one ahead of it along an axis. */
function edgeSum({ dual }: Context, name: ElectricName, node: Node, shifted: Axis, ahead: number): number {
  let sum = 0;
  for (const axis of ACROSS[name]) {
    const n = node[axisIndex(axis)] + (axis === shifted ? ahead : 0);
    // On the first line there is one face only, over half a cell.
    sum += (n === 0 ? 1 : 2) * (dual[axis][n] as number);
  }
  return sum;
}
