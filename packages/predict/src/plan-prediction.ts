import { coarserRules, GRID_RULES, type GridReport, type Plan, planScene } from '@sheetwave/field';
import type { Assembly } from '@sheetwave/geometry';
import type { PredictOptions } from './predict-options.ts';
import type { FeedModel, PredictedPort, PredictionCost, PredictionQuality } from './prediction.ts';
import { solverRequest } from './solver-request.ts';

/** What is known of a prediction before a step is run. */
export interface PredictionPlan {
  readonly feed: FeedModel;
  readonly quality: PredictionQuality;
  readonly ports: readonly PredictedPort[];
  readonly cost: PredictionCost;
  /** Cells times steps of all runs: what the time goes with. */
  readonly work: number;
  readonly doubts: readonly string[];
}

/**
 * Meshes an antenna and checks it: cells, memory and expected steps. Throws FieldError, worded for the design, when it cannot be
 * solved as asked.
 */
export function planPrediction(assembly: Assembly, options: PredictOptions = {}): PredictionPlan {
  const { antenna, plan, options: solving } = solverRequest(assembly, options);
  const cost = costOf(plan, { runs: antenna.ports.length });
  const { quality = 'normal', feed = 'as-built' } = options;
  const first = cost.cells * cost.steps;
  const second = options.twoMeshes
    ? workOf(planScene(antenna.scene, { ...solving, rules: coarserRules(quality, GRID_RULES[quality]) }).report)
    : 0;
  return {
    feed,
    quality,
    ports: portsOf(assembly, antenna.ports),
    cost,
    work: first + second * antenna.ports.length,
    doubts: antenna.doubts,
  };
}

const workOf = ({ cells, expectedSteps }: GridReport): number => cells * expectedSteps;

/** `steps` left out takes the expected ones. */
export function costOf(
  { report, symmetry }: Pick<Plan, 'report' | 'symmetry'>,
  { runs, steps }: { runs: number; steps?: number },
): PredictionCost {
  return {
    nodes: report.nodes,
    cells: report.cells,
    smallestCellM: report.smallestCell,
    largestCellM: report.largestCell,
    timeStepS: report.timeStep,
    memoryBytes: report.memoryBytes,
    runs,
    steps: steps ?? runs * report.expectedSteps,
    mirroredAcross: (['x', 'y', 'z'] as const).filter((axis) => symmetry[axis]?.used),
  };
}

export const portsOf = (
  { design }: Assembly,
  ports: readonly { readonly name: string; readonly element: number | undefined }[],
): PredictedPort[] => ports.map((port) => ({ ...port, referenceOhm: design.coax.coax.impedanceOhm }));
