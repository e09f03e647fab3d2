import { checkCells, checkExtent, checkMemory } from './check-grid.ts';
import { checkModel } from './check-model.ts';
import { checkOptions } from './check-options.ts';
import { checkScene } from './check-scene.ts';
import { FieldError, type FieldProblem } from './field-error.ts';
import { buildModel, type Model } from './model.ts';
import { type GridReport, planGrid, reportGrid } from './plan-grid.ts';
import type { Band, Scene } from './scene.ts';
import type { SolveOptions } from './solve-options.ts';
import { findSymmetry, type Symmetry } from './symmetry.ts';
import { pulseFor } from './waveform.ts';

/** A scene on its grid, checked, with its costs: what is known before a step is run. */
export interface Plan {
  readonly model: Model;
  readonly report: GridReport;
  readonly symmetry: Symmetry;
}

const centreOf = ({ low, high }: Band) => (low + high) / 2;

/**
 * Shares of the time step that the sub-cell factors of edges leave: without this room the factors would have to be reduced, and
 * the patch of a few cells' height would ring 0.06 % too low. Slanted and curved edges cross cells anyhow and need the most.
 */
const STEP_SHARES = { slanted: 0.8, thin: 0.92, thick: 1 } as const;

function stepShareOf(scene: Scene): number {
  if (hasSlantedEdges(scene)) return STEP_SHARES.slanted;
  return scene.sheets.some(({ thickness }) => thickness === 0) ? STEP_SHARES.thin : STEP_SHARES.thick;
}

/** Meshes a scene and checks it. Throws FieldError with all problems found. */
export function planScene(scene: Scene, options: SolveOptions): Plan {
  refuse([...checkOptions(options), ...checkScene(scene, options.band)]);
  refuse(checkExtent(scene, options));
  const symmetry = findSymmetry(scene, { use: options.symmetry ?? true });
  const { band, quality = 'normal', rules = {} } = options;
  const grid = planGrid({ scene, band, quality, symmetry, rules });
  const report = reportGrid(grid);
  refuse([...checkCells(grid, scene, options), ...checkMemory(report, options)]);
  const model = buildModel({ grid, scene, symmetry, centreHz: centreOf(band), stepShare: stepShareOf(scene) });
  refuse(checkModel(model));
  return { model, report: { ...report, timeStep: model.dt, expectedSteps: expectedSteps(band, model.dt) }, symmetry };
}

function refuse(problems: readonly FieldProblem[]): void {
  if (problems.length > 0) throw new FieldError(problems);
}

/** Quality of a resonator that is taken for usual. */
const USUAL_QUALITY = 12;

/** A resonator that is driven in the middle of the pulse loses 50 dB, a factor of exp(11.5), in 11.5 Q / 2 pi f. */
function expectedSteps(band: Band, dt: number): number {
  const pulse = pulseFor(band).end;
  const decay = (11.5 * USUAL_QUALITY) / (2 * Math.PI * centreOf(band));
  return Math.ceil(Math.max(pulse, pulse / 2 + decay) / dt);
}

/** Expected time of one run, s, with a kernel that works through this many cells in a second. */
export const expectedSeconds = ({ cells, expectedSteps: steps }: GridReport, cellsPerSecond: number): number =>
  (cells * steps) / cellsPerSecond;

const hasSlantedEdges = ({ sheets }: Scene) =>
  sheets.some((sheet) =>
    [sheet.outline, ...(sheet.holes ?? [])].some(
      (outline) =>
        outline.kind === 'disc' ||
        outline.points.some((point, n) => {
          const next = outline.points[(n + 1) % outline.points.length] as readonly [number, number];
          return Math.abs(point[0] - next[0]) > 1e-9 && Math.abs(point[1] - next[1]) > 1e-9;
        }),
    ),
  );
