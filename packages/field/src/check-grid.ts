import { SPEED_OF_LIGHT } from './constants.ts';
import type { FieldProblem } from './field-error.ts';
import { type Grid, spacings } from './grid.ts';
import type { GridReport } from './plan-grid.ts';
import { partBoxes } from './planes.ts';
import { GRID_RULES, type GridRules } from './quality.ts';
import { axisIndex, type Scene } from './scene.ts';
import type { SolveOptions } from './solve-options.ts';
import { AXES, type Axis } from './update.ts';

/** WebAssembly addresses 4 GiB (WebAssembly Core Specification 2.0, section 4.2.8: 65536 pages of 64 KiB); the kernel has two pages. */
const MOST_BYTES = 2 ** 32 - 2 * 65_536;

const memoryLimit = ({ memoryBytes = MOST_BYTES }: SolveOptions): number => Math.min(memoryBytes, MOST_BYTES);

/** Of six field components in single precision: what a cell takes at the very least, bytes. */
const LEAST_CELL_BYTES = 24;

/** Told before lines are drawn: a space so large that cells of the largest size would already fill the memory. */
export function checkExtent(scene: Scene, options: SolveOptions): FieldProblem[] {
  const largest = largestCell(options);
  const boxes = partBoxes(scene).map(({ box }) => box);
  const cells = AXES.reduce((product, _, n) => {
    const ends = boxes.flatMap(([low, high]) => [low[n] as number, high[n] as number]).filter(Number.isFinite);
    // Half of it, where the scene mirrors.
    return product * Math.max(1, (Math.max(...ends) - Math.min(...ends)) / largest / 2);
  }, 1);
  const needed = Math.ceil(cells) * LEAST_CELL_BYTES;
  return needed > memoryLimit(options)
    ? [memoryProblem({ cells: Math.ceil(cells), memoryBytes: needed }, options)]
    : [];
}

export const checkMemory = (report: Omit<GridReport, 'expectedSteps'>, options: SolveOptions): FieldProblem[] =>
  report.memoryBytes > memoryLimit(options) ? [memoryProblem(report, options)] : [];

const memoryProblem = (
  { cells, memoryBytes }: Pick<GridReport, 'cells' | 'memoryBytes'>,
  options: SolveOptions,
): FieldProblem => ({
  code: 'memory',
  path: 'memoryBytes',
  value: String(memoryLimit(options)),
  allowed: `${cells} cells need ${memoryBytes} bytes`,
  remedy:
    memoryLimit(options) === MOST_BYTES
      ? 'no more can be addressed; ask for a coarser quality or a smaller scene'
      : 'give more memory, a coarser quality or a smaller scene',
});

/** Share of the largest cell. Smaller ones would take thousands of times the steps. */
const SMALLEST_SHARE = 1 / 4000;

const largestCell = ({ band, quality = 'normal', rules = {} }: SolveOptions): number =>
  SPEED_OF_LIGHT / band.high / ({ ...GRID_RULES[quality], ...rules } as GridRules).cellsPerWavelength;

/** Details and gaps that would ask for cells smaller than the solver takes. */
export function checkCells(grid: Grid, scene: Scene, options: SolveOptions): FieldProblem[] {
  const least = SMALLEST_SHARE * largestCell(options);
  return AXES.flatMap((axis) => {
    const cells = spacings(grid.lines[axis]);
    const n = cells.reduce((best, cell, m) => (cell < (cells[best] as number) ? m : best), 0);
    const cell = cells[n] as number;
    if (cell >= least) return [];
    const ends = [grid.lines[axis][n] as number, grid.lines[axis][n + 1] as number] as const;
    return [cellProblem(scene, axis, { cell, least, ends })];
  });
}

interface NarrowCell {
  readonly cell: number;
  readonly least: number;
  readonly ends: readonly [number, number];
}

function cellProblem(scene: Scene, axis: Axis, { cell, least, ends }: NarrowCell): FieldProblem {
  const n = axisIndex(axis);
  const away = (place: number) => Math.min(...ends.map((end) => Math.abs(end - place)));
  const near = partBoxes(scene)
    .map((part) => ({ ...part, away: Math.min(...part.box.map((corner) => away(corner[n]))) }))
    .filter((part) => part.away <= CELLS_AWAY * cell)
    .sort((a, b) => a.away - b.away);
  const [first, ...others] = near;
  const beside =
    others.length === 0
      ? ''
      : `, beside ${others
          .slice(0, 2)
          .map(({ path }) => path)
          .join(' and ')}`;
  return {
    code: 'too-small',
    path: first?.path ?? 'scene',
    value: first?.name ?? '',
    allowed: `a detail or a gap at ${axis} = ${ends[0]} m${beside} asks for cells of ${cell.toExponential(1)} m, and the smallest taken is ${least.toExponential(1)} m`,
    remedy: 'leave the detail out, or let the two edges coincide',
  };
}

/** Lines lie this near to the edge that asked for them, in cells. */
const CELLS_AWAY = 4;
