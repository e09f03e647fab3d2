import type { Design } from '@sheetwave/design';
import { type Band, FieldError, type Plan, planScene, type SolveOptions } from '@sheetwave/field';
import type { Assembly } from '@sheetwave/geometry';
import { sweepFrequencies } from '@sheetwave/rf';
import { inDesignTerms } from './design-terms.ts';
import type { PredictOptions } from './predict-options.ts';
import { type AntennaScene, sceneOf } from './scene/scene-of.ts';

/** An antenna as the solver gets it. */
export interface SolverRequest {
  readonly antenna: AntennaScene;
  readonly options: SolveOptions;
  readonly plan: Plan;
}

/** Of the design's band edges: how far the sweep reaches beyond, so that the bands of most designs end inside. */
const BEYOND = 0.15;

const POINTS = 201;

const sweepOf = ({ band }: Design): Band => ({
  low: (1 - BEYOND) * band.lowHz,
  high: (1 + BEYOND) * band.highHz,
});

/**
 * Five over the design's band (its edges, its centre, and half way between), and on either side the end of the sweep and half way to it: enough
 * for the gain over the whole sweep, which changes slowly but for its mismatch.
 */
function usualFarFields({ band: { lowHz, highHz } }: Design, sweep: Band): number[] {
  const inBand = [0, 1, 2, 3, 4].map((n) => lowHz + ((highHz - lowHz) * n) / 4);
  const below = sweep.low < lowHz ? [sweep.low, (sweep.low + lowHz) / 2] : [];
  const above = sweep.high > highHz ? [(highHz + sweep.high) / 2, sweep.high] : [];
  return [...below, ...inBand, ...above];
}

/**
 * Scene and options of a prediction, checked on their grid. Pins are wires where the cells leave them room, else round bodies.
 * Throws FieldError in terms of the design.
 */
export function solverRequest(assembly: Assembly, given: PredictOptions): SolverRequest {
  const { design } = assembly;
  const { quality = 'normal', band = sweepOf(design), points = POINTS } = given;
  const { farFieldHz = usualFarFields(design, band) } = given;
  const options: SolveOptions = {
    band,
    quality,
    freqHz: sweepFrequencies(band.low, band.high, points),
    farFieldHz,
    ...(given.twoMeshes === undefined ? {} : { twoMeshes: given.twoMeshes }),
    ...(given.rules === undefined ? {} : { rules: given.rules }),
    ...(given.memoryBytes === undefined ? {} : { memoryBytes: given.memoryBytes }),
    ...(given.kernel === undefined ? {} : { kernel: given.kernel }),
    ...(given.allocate === undefined ? {} : { allocate: given.allocate }),
    ...(given.signal === undefined ? {} : { signal: given.signal }),
  };
  for (const pins of ['wire', 'body'] as const) {
    const antenna = sceneOf(assembly, { ...given, quality, pins });
    try {
      return { antenna, options, plan: planScene(antenna.scene, options) };
    } catch (error) {
      if (pins === 'wire' && isTooThick(error)) continue;
      throw inDesignTerms(error, antenna);
    }
  }
  throw new Error('a pin is a wire or a body');
}

const isTooThick = (error: unknown): boolean =>
  error instanceof FieldError && error.problems.some(({ code }) => code === 'too-thick');
