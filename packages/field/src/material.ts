import { ELECTRIC_CONSTANT } from './constants.ts';
import { dualSpacings, type Grid, nodeCounts, spacings } from './grid.ts';
import { solidBox } from './planes.ts';
import { axisIndex, type PlanePoint, planeAxes, type Scene, type Solid } from './scene.ts';
import { AXES, type Axis } from './update.ts';

/** Relative permittivity and conductivity (S/m) of each cell; index (k * ny + j) * nx + i. */
export interface CellMaterial {
  readonly permittivity: Float32Array;
  readonly conductivity: Float32Array;
}

/** Undefined in a scene without solids: all is vacuum. `freqHz` is where the loss tangents hold. */
export function cellMaterial(grid: Grid, scene: Scene, freqHz: number): CellMaterial | undefined {
  if (scene.solids.length === 0) return undefined;
  const { nx, ny, nz } = nodeCounts(grid);
  const material = {
    permittivity: new Float32Array(nx * ny * nz).fill(1),
    conductivity: new Float32Array(nx * ny * nz),
  };
  for (const solid of scene.solids) fillSolid(grid, solid, { material, freqHz });
  return material;
}

function fillSolid(grid: Grid, solid: Solid, { material, freqHz }: { material: CellMaterial; freqHz: number }): void {
  const { nx, ny } = nodeCounts(grid);
  // sigma = 2 pi f eps0 eps_r tan(delta): loss of that tangent at one frequency.
  const sigma = 2 * Math.PI * freqHz * ELECTRIC_CONSTANT * solid.permittivity * (solid.lossTangent ?? 0);
  const [low, high] = solidBox(solid);
  const shares = AXES.map((axis) => overlaps(grid.lines[axis], low[axisIndex(axis)], high[axisIndex(axis)]));
  const [along, round] = roundShare(grid, solid);
  const [sharesX, sharesY, sharesZ] = shares as [Float64Array, Float64Array, Float64Array];
  for (let k = 0; k < sharesZ.length; k++) {
    for (let j = 0; j < sharesY.length && sharesZ[k]; j++) {
      for (let i = 0; i < sharesX.length && sharesY[j]; i++) {
        if (!sharesX[i]) continue;
        const flat = { x: sharesX[i] as number, y: sharesY[j] as number, z: sharesZ[k] as number };
        const share = along ? flat[along] * round(i, j, k) : flat.x * flat.y * flat.z;
        const index = (k * ny + j) * nx + i;
        material.permittivity[index] = mix(material.permittivity[index] as number, solid.permittivity, share);
        material.conductivity[index] = mix(material.conductivity[index] as number, sigma, share);
      }
    }
  }
}

const mix = (old: number, replacement: number, share: number) => old + share * (replacement - old);

/** Part of each cell that lies between two places. */
function overlaps(lines: Float64Array, low: number, high: number): Float64Array {
  return Float64Array.from(spacings(lines), (length, n) => {
    const from = Math.max(low, lines[n] as number);
    const to = Math.min(high, lines[n + 1] as number);
    return Math.max(0, to - from) / length;
  });
}

type CellShare = (i: number, j: number, k: number) => number;

/** Of a cylinder its axis and the part of a cell inside the circle. */
function roundShare(grid: Grid, { shape }: Solid): [Axis | undefined, CellShare] {
  if (shape.kind === 'box') return [undefined, () => 1];
  const [u, v] = planeAxes(shape.axis);
  const [nu, nv] = [axisIndex(u), axisIndex(v)];
  return [
    shape.axis,
    (...cell) => {
      const [a, b] = [cell[nu] as number, cell[nv] as number];
      const corner: PlanePoint = [grid.lines[u][a] as number, grid.lines[v][b] as number];
      const opposite: PlanePoint = [grid.lines[u][a + 1] as number, grid.lines[v][b + 1] as number];
      return circleShare(shape.centre, shape.radius, [corner, opposite]);
    },
  ];
}

const SAMPLES = 8;

function circleShare(centre: PlanePoint, radius: number, [low, high]: [PlanePoint, PlanePoint]): number {
  let hits = 0;
  for (let a = 0; a < SAMPLES; a++) {
    for (let b = 0; b < SAMPLES; b++) {
      const u = low[0] + ((a + 0.5) / SAMPLES) * (high[0] - low[0]);
      const v = low[1] + ((b + 0.5) / SAMPLES) * (high[1] - low[1]);
      if (Math.hypot(u - centre[0], v - centre[1]) < radius) hits++;
    }
  }
  return hits / SAMPLES ** 2;
}

/** Mean over the four cells around an edge, weighted by their areas: exact for faces along the edge. */
export type EdgeMean = (values: Float32Array, i: number, j: number, k: number) => number;

export function edgeMean(grid: Grid, along: Axis): EdgeMean {
  const { nx, ny } = nodeCounts(grid);
  const stride = { x: 1, y: nx, z: nx * ny };
  const [u, v] = planeAxes(along);
  const weights = { u: quarterWeights(grid.lines[u]), v: quarterWeights(grid.lines[v]) };
  const [nu, nv] = [axisIndex(u), axisIndex(v)];
  return (values, i, j, k) => {
    const place = [i, j, k] as const;
    const index = (k * ny + j) * nx + i;
    const [au, av] = [place[nu], place[nv]];
    const [pu, pv] = [weights.u[au] as number, weights.v[av] as number];
    const here = values[index] as number;
    const backU = pu < 1 ? (values[index - stride[u]] as number) : 0;
    const backV = pv < 1 ? (values[index - stride[v]] as number) : 0;
    const back = pu < 1 && pv < 1 ? (values[index - stride[u] - stride[v]] as number) : 0;
    return pu * pv * here + (1 - pu) * pv * backU + pu * (1 - pv) * backV + (1 - pu) * (1 - pv) * back;
  };
}

/** For each line the share of the cell above it in its dual cell. */
function quarterWeights(lines: Float64Array): Float64Array {
  const cells = spacings(lines);
  const dual = dualSpacings(lines);
  return Float64Array.from(lines, (_, n) => (cells[n] ?? 0) / 2 / (dual[n] as number));
}
