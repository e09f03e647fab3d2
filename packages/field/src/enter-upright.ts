import { type EdgeKind, uprightFactor } from './edge-field.ts';
import { type Grid, spacings } from './grid.ts';
import { electricAlong, type Metal, magneticAlong, multiplyFactor, strides } from './metal.ts';
import { elementAt, isNear, type NodePlane, type PlaneKind } from './node-plane.ts';
import { sheetDistance } from './outline.ts';

/** Upright edges and faces that stand on the plane near the edge of its metal. */
export function enterStanding(grid: Grid, plane: NodePlane, metal: Metal): void {
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
export function enterThickness(grid: Grid, below: NodePlane, above: NodePlane, metal: Metal): void {
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
