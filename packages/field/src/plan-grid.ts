import { SPEED_OF_LIGHT } from './constants.ts';
import { type Grid, nodeCounts, type Side, smallestCell, spacings, timeStep } from './grid.ts';
import { gridLines, type Seed } from './grid-lines.ts';
import { layoutBytes, planLayout, rowLength } from './layout.ts';
import { sceneBoxes, wallName } from './planes.ts';
import { GRID_RULES, type GridRules, type Quality } from './quality.ts';
import { axisIndex, type Band, type Scene } from './scene.ts';
import { seedsAcross } from './seeds.ts';
import type { Symmetry } from './symmetry.ts';
import { AXES, type Axis } from './update.ts';

export interface GridRequest {
  readonly scene: Scene;
  readonly band: Band;
  readonly quality: Quality;
  readonly symmetry: Symmetry;
  /** Changes to the rules of the quality, for studies of convergence. */
  readonly rules?: Partial<GridRules>;
}

/** What a run will cost, known before it starts. */
export interface GridReport {
  readonly nodes: readonly [number, number, number];
  /** Cells that the kernel works through at each step, padding included. */
  readonly cells: number;
  /** m. */
  readonly smallestCell: number;
  readonly largestCell: number;
  /** s. */
  readonly timeStep: number;
  readonly memoryBytes: number;
  /** Steps of one run, a guess before it starts: resonators of high quality ring longer. */
  readonly expectedSteps: number;
  /** Largest ratio of neighbouring cells. */
  readonly largestGrowth: number;
}

const densestAround = (scene: Scene) => scene.solids.reduce((most, solid) => Math.max(most, solid.permittivity), 1);

/** Lines in x, y and z for a scene, and the ends of the grid. */
export function planGrid(request: GridRequest): Grid {
  const rules: GridRules = { ...GRID_RULES[request.quality], ...request.rules };
  const wavelength = SPEED_OF_LIGHT / request.band.high;
  const largest = wavelength / rules.cellsPerWavelength;
  const planned = AXES.map((axis) => [axis, planAxis({ ...request, rules: rules, largest }, axis)] as const);
  const pick = <K extends keyof AxisPlan>(key: K) =>
    Object.fromEntries(planned.map(([axis, plan]) => [axis, plan[key]])) as Record<Axis, AxisPlan[K]>;
  return { lines: pick('lines'), sides: pick('sides'), layers: pick('layers') };
}

interface AxisPlan {
  readonly lines: Float64Array;
  readonly sides: { readonly low: Side; readonly high: 'open' | 'metal' };
  readonly layers: { readonly low: number; readonly high: number };
}

type AxisRequest = GridRequest & { readonly rules: GridRules; readonly largest: number };

function planAxis(request: AxisRequest, axis: Axis): AxisPlan {
  const { scene, rules, symmetry } = request;
  const { low, high } = extent(request, axis);
  const plane = symmetry[axis];
  const [start, startSide] = lowEnd(request, axis, low);
  const highWall = scene.walls?.[wallName(axis, 'High')];
  const seeds = [...seedsAcross({ scene, rules, largest: request.largest }, axis), ...solidSizes(request, axis)];
  const end = highWall?.at ?? high;
  const between = (from: number) =>
    gridLines({ low: from, high: end, seeds, largest: request.largest, growth: rules.growth });
  // Both halves of a scene that mirrors get the same lines, whether one of them is solved or both.
  const inner = plane && !plane.used ? mirrorLines(between(plane.at)) : between(start);
  const layers = { low: startSide === 'open' ? rules.layer : 0, high: highWall ? 0 : rules.layer };
  return {
    lines: withLayers(inner, layers),
    sides: { low: startSide, high: highWall ? 'metal' : 'open' },
    layers,
  };
}

/** The lines, and before them their images in the first one. */
function mirrorLines(lines: Float64Array): Float64Array {
  const at = lines[0] as number;
  return Float64Array.from([...lines.slice(1).map((line) => 2 * at - line)].reverse().concat([...lines]));
}

function lowEnd({ scene, symmetry }: AxisRequest, axis: Axis, open: number): [number, Side] {
  const plane = symmetry[axis];
  if (plane?.used) return [plane.at, plane.kind];
  const wall = scene.walls?.[wallName(axis, 'Low')];
  return wall ? [wall.at, wall.kind] : [open, 'open'];
}

/** The structure with air around it, m. */
function extent({ scene, band, rules }: AxisRequest, axis: Axis): { low: number; high: number } {
  const margin = (rules.margin * SPEED_OF_LIGHT) / band.low;
  const n = axisIndex(axis);
  const all = sceneBoxes(scene).flatMap((box) => [box[0][n], box[1][n]]);
  const finite = all.filter(Number.isFinite);
  return {
    low: scene.openAt?.[wallName(axis, 'Low')] ?? Math.min(...finite) - margin,
    high: scene.openAt?.[wallName(axis, 'High')] ?? Math.max(...finite) + margin,
  };
}

/** Inside a dielectric the wavelength is shorter. */
function solidSizes({ scene, largest }: AxisRequest, axis: Axis): Seed[] {
  if (densestAround(scene) === 1) return [];
  return scene.solids.flatMap((solid): Seed[] => {
    if (solid.shape.kind !== 'box') return [];
    const n = axisIndex(axis);
    const size = largest / Math.sqrt(solid.permittivity);
    return [{ at: solid.shape.low[n], until: solid.shape.high[n], size, line: 'none' }];
  });
}

function withLayers(inner: Float64Array, { low, high }: { low: number; high: number }): Float64Array {
  const cells = spacings(inner);
  const [first, last] = [cells[0] as number, cells[cells.length - 1] as number];
  const before = Array.from({ length: low }, (_, n) => (inner[0] as number) - (low - n) * first);
  const after = Array.from({ length: high }, (_, n) => (inner[inner.length - 1] as number) + (n + 1) * last);
  return Float64Array.from([...before, ...inner, ...after]);
}

export function reportGrid(grid: Grid): Omit<GridReport, 'expectedSteps'> {
  const { nx, ny, nz } = nodeCounts(grid);
  const cells = rowLength(nx) * ny * nz;
  const all = AXES.map((axis) => spacings(grid.lines[axis]));
  const ratios = all.flatMap((sizes) =>
    [...sizes].slice(1).map((size, n) => Math.max(size / (sizes[n] as number), (sizes[n] as number) / size)),
  );
  // Distinct coefficient rows are few: a tenth of the cells is a generous guess for them.
  const layout = planLayout({
    nx,
    ny,
    nz,
    layers: grid.layers,
    poolElements: Math.ceil(cells / 10),
    waveCount: 1,
    probeCount: 0,
    operationCount: 0,
    maxBatch: 64,
  });
  return {
    nodes: [nx, ny, nz],
    cells,
    smallestCell: smallestCell(grid),
    largestCell: Math.max(...all.map((sizes) => Math.max(...sizes))),
    timeStep: timeStep(grid),
    memoryBytes: layoutBytes(layout),
    largestGrowth: Math.max(1, ...ratios),
  };
}
