import type { KernelMaker, MemoryMaker } from './kernel.ts';
import type { Progress } from './progress.ts';
import type { GridRules, Quality } from './quality.ts';
import type { Band } from './scene.ts';
import type { SliceRequest } from './slice-sampler.ts';

export const DEFAULT_STEP_DEGREES = 3;

export interface SolveOptions {
  /** Hz: where answers are wanted; the pulse covers it. */
  readonly band: Band;
  /** Default `normal`. */
  readonly quality?: Quality;
  /** Hz, of the S parameters; default 201 over the band. */
  readonly freqHz?: readonly number[];
  /** Hz, of far fields; default none. */
  readonly farFieldHz?: readonly number[];
  /** Planes whose fields are wanted at the frequencies of the far fields; default none. */
  readonly slices?: readonly SliceRequest[];
  /** Whether the currents of all sheets are wanted at the frequencies of the far fields; default false. */
  readonly currents?: boolean;
  /** Degrees between two directions; default 3. */
  readonly stepDegrees?: number;
  /** Default: the fastest that the host runs. */
  readonly kernel?: KernelMaker;
  /** Memory for the kernel that is given. */
  readonly allocate?: MemoryMaker;
  /** Threads of the default kernel; default all that can be used. */
  readonly threads?: number;
  /** Refuse a scene that needs more. */
  readonly memoryBytes?: number;
  /** Use planes of symmetry, also those in which ports change places; default true. */
  readonly symmetry?: boolean;
  /** The run ends when the energy has fallen to this, dB; default -50. */
  readonly stopDb?: number;
  /** Longest run, in periods of the centre of the band; default 400. */
  readonly mostPeriods?: number;
  readonly rules?: Partial<GridRules>;
  /** Solve on a coarser grid too (about a quarter of the time) and state the error that is left; default false. */
  readonly twoMeshes?: boolean;
  readonly onProgress?: (progress: Progress) => void;
  readonly signal?: AbortSignal;
}
