import type { Band, GridRules, KernelMaker, MemoryMaker } from '@sheetwave/field';
import type { FeedModel, PredictionQuality } from './prediction.ts';
import type { SceneCover } from './scene/cover.ts';

/** How far a prediction has come. */
export interface PredictionProgress {
  /** Which of the runs, from 0: one for each port, twice with a second grid. */
  readonly run: number;
  readonly runs: number;
  readonly step: number;
  /** Of this run, estimated from the decay so far. */
  readonly steps: number;
  /** Field energy left, dB of its highest value. */
  readonly energyDb: number;
}

export interface PredictOptions {
  /** Default `as-built`. */
  readonly feed?: FeedModel;
  /** Default `normal`. */
  readonly quality?: PredictionQuality;
  /** Sweep, Hz. Default: the design's band and 15 % of its edges on either side. */
  readonly band?: Band;
  /** Frequencies of the sweep, evenly spaced; default 201, at least 2. */
  readonly points?: number;
  /** Hz; default five over the design's band, edges and centre among them, and two on either side to the ends of the sweep. */
  readonly farFieldHz?: readonly number[];
  /** Solve on a second, coarser grid and state the error that is left; default false. */
  readonly twoMeshes?: boolean;
  /** A flat cover in front of the antenna; default none. */
  readonly cover?: SceneCover;
  /** Other cells than those of the quality. */
  readonly rules?: Partial<GridRules>;
  /** Refuse a scene that needs more. */
  readonly memoryBytes?: number;
  /** Default: the plain kernel, which is slow. */
  readonly kernel?: KernelMaker;
  readonly allocate?: MemoryMaker;
  readonly onProgress?: (progress: PredictionProgress) => void;
  readonly signal?: AbortSignal;
}
