import { uprightFactor } from './edge-field.ts';
import { type Grid, spacings } from './grid.ts';
import { electricAlong, type Metal, magneticAlong, multiplyFactor, strides } from './metal.ts';
import { elementAt, isNear, type NodePlane, type PlaneKind } from './node-plane.ts';
import { sheetDistance } from './outline.ts';
import type { Sheet } from './scene.ts';

/** Upright edges and faces that stand on the plane near the edge of its metal. */
export function enterStanding(grid: Grid, plane: NodePlane, metal: Metal): void {
  const { size, nearest, kinds, p, normal } = plane;
  const cells = spacings(grid.lines[normal]);
  const stride = strides(grid)[normal];
  for (let b = 0; b < size[1]; b++) {
    for (let a = 0; a < size[0]; a++) {
      const index = b * size[0] + a;
      const ahead = [a + 1 < size[0] ? index + 1 : -1, b + 1 < size[1] ? index + size[0] : -1] as const;
      if (!isNear(plane, index) && !ahead.some((other) => other >= 0 && isNear(plane, other))) continue;
      const { outerSides } = kinds[nearest[index] as number] as PlaneKind;
      for (const side of outerSides) {
        const height = cells[p + side];
        if (height === undefined) continue;
        enterStandingAt(plane, metal, { index, ahead, height, element: elementAt(grid, plane, a, b) + side * stride });
      }
    }
  }
}

interface StandingPlace {
  readonly index: number;
  /** The next nodes along u and v; -1 where there is none. */
  readonly ahead: readonly [number, number];
  readonly height: number;
  readonly element: number;
}

function enterStandingAt(plane: NodePlane, metal: Metal, { index, ahead, height, element }: StandingPlace): void {
  const { distance } = plane;
  if (isNear(plane, index)) {
    const factor = standingFactor(plane, index, { height, distance: distance[index] as number });
    multiplyFactor(metal.edgeFactor[electricAlong(plane.normal)], element, factor);
  }
  for (const along of [0, 1] as const) {
    const other = ahead[along];
    if (other < 0) continue;
    const ends = [index, other].filter((end) => isNear(plane, end));
    // What the two ends say counts alike, so that a structure and its mirror image get the same factors.
    const middle = ((distance[index] as number) + (distance[other] as number)) / 2;
    const excess = ends.reduce((sum, end) => {
      const factor = standingFactor(plane, end, { height, distance: middle });
      return sum + (factor - 1) * edgeShare(plane, end, along);
    }, 0);
    // A face between two nodes along v lies across u.
    const across = along === 0 ? plane.v : plane.u;
    if (excess !== 0) multiplyFactor(metal.faceFactor[magneticAlong(across)], element, 1 + excess / 2);
  }
}

function standingFactor(
  { slope, isMetal, nearest, kinds }: NodePlane,
  index: number,
  { height, distance }: { readonly height: number; readonly distance: number },
): number {
  const width = Math.hypot(slope[0][index] as number, slope[1][index] as number);
  const { kind } = kinds[nearest[index] as number] as PlaneKind;
  return uprightFactor({ kind, distance, height, width, onMetal: isMetal[index] === 1 });
}

/** A face holds the flux of currents along the edge of the metal: the more it lies along the edge, the more it counts. */
function edgeShare({ slope }: NodePlane, index: number, along: 0 | 1): number {
  const [du, dv] = [slope[0][index] as number, slope[1][index] as number];
  const share = (along === 0 ? dv : du) ** 2 / (du ** 2 + dv ** 2);
  return share > 0.05 ? share : 0;
}

/** Edges and faces between two planes that lie in the same thick sheet. */
export function enterThickness(grid: Grid, below: NodePlane, above: NodePlane, metal: Metal): void {
  const thick = below.covering.filter((sheet) => sheet.thickness > 0 && above.covering.includes(sheet));
  if (thick.length === 0) return;
  const inside = thick.length === below.covering.length ? below.distance : distancesTo(grid, thick, below);
  enterUpright(grid, { below, inside }, metal);
}

function distancesTo(grid: Grid, sheets: readonly Sheet[], { u, v, from, size }: NodePlane): Float64Array {
  const distances = new Float64Array(size[0] * size[1]);
  for (let b = 0; b < size[1]; b++) {
    for (let a = 0; a < size[0]; a++) {
      const [pu, pv] = [grid.lines[u][from[0] + a] as number, grid.lines[v][from[1] + b] as number];
      distances[b * size[0] + a] = sheets.reduce(
        (least, sheet) => Math.min(least, sheetDistance(sheet, pu, pv)),
        Number.POSITIVE_INFINITY,
      );
    }
  }
  return distances;
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
