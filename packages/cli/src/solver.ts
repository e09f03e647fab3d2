import { totalmem } from 'node:os';
import { detectFeatures, FieldError, fastKernel, type KernelMaker, usableThreads, wasmMemory } from '@sheetwave/field';
import type { SoundDesign } from '@sheetwave/pack';
import {
  type CoverPrediction,
  coverWork,
  type FlatCover,
  type Prediction,
  type PredictionPlan,
  type PredictionProgress,
  planPrediction,
  predict,
  predictCover,
  type PredictOptions as SolverOptions,
} from '@sheetwave/predict';
import { EXIT } from './exit-code.ts';
import { Failure } from './failure.ts';
import type { PredictOptions } from './predict-options.ts';
import { visible } from './terminal.ts';

/** The field solver as this machine can run it. */
export interface Solver {
  readonly threads: number;
  readonly plan: PredictionPlan;
  /** Cells times steps in a second, from the first steps of this very run, which are then given up; undefined when it ends too soon to tell. */
  measureSpeed(signal: AbortSignal): Promise<number | undefined>;
  solve(how: How): Promise<Prediction>;
}

/** Threads and options of the solver on this machine. Throws a Failure when this version of Node has not what it is made of. */
function machineFor({ request, memoryBytes, threads: wanted }: PredictOptions) {
  const threads = threadsFor(wanted);
  const options: SolverOptions = {
    ...request,
    memoryBytes: memoryBytes ?? Math.round(totalmem() / 2),
    allocate: wasmMemory({ isShared: threads > 1 }),
  };
  const runWith = async <T>({ signal, onProgress }: How, run: (options: SolverOptions) => Promise<T>): Promise<T> => {
    try {
      return await run({ ...options, kernel: interruptibleKernel(threads, signal), signal, onProgress });
    } catch (error) {
      throw signal.aborted ? error : failureOf(error);
    }
  };
  return { threads, options, runWith };
}

interface How {
  readonly signal: AbortSignal;
  readonly onProgress: (progress: PredictionProgress) => void;
}

/** The solver for an antenna with a cover and without. */
export interface CoverSolver {
  readonly threads: number;
  /** Cells times steps of all runs. */
  readonly work: number;
  solve(how: How): Promise<CoverPrediction>;
}

/** Checks that a cover has its place and that its grids fit, before a step is run. Throws a Failure that says what to do. */
export function coverSolverFor(
  { assembly }: Pick<SoundDesign, 'assembly'>,
  cover: FlatCover,
  wanted: PredictOptions,
): CoverSolver {
  const { threads, options, runWith } = machineFor(wanted);
  return {
    threads,
    work: told(() => coverWork(assembly, cover, options)),
    solve: (how) => runWith(how, (all) => predictCover(assembly, cover, all)),
  };
}

/** Checks a design for the solver on its grid, before a step is run. Throws a Failure that says what to do. */
export function solverFor({ assembly }: Pick<SoundDesign, 'assembly'>, wanted: PredictOptions): Solver {
  const { threads, options, runWith } = machineFor(wanted);
  const plan = told(() => planPrediction(assembly, options));
  const solve: Solver['solve'] = (how) => runWith(how, (all) => predict(assembly, all));
  const measureSpeed: Solver['measureSpeed'] = async (signal) => {
    const trial = trialKernel(threads, signal);
    try {
      await predict(assembly, { ...options, kernel: trial.kernel, signal: trial.signal });
    } catch (error) {
      if (signal.aborted || !trial.signal.aborted) throw signal.aborted ? error : failureOf(error);
    }
    const stepsPerSecond = trial.stepsPerSecond();
    return stepsPerSecond && stepsPerSecond * plan.cost.cells;
  };
  return { threads, plan, solve, measureSpeed };
}

/** How long the steps of a trial are timed, ms. The first batches, in which code and memory are not yet warm, are left out. */
const TRIAL_MS = 800;
const COLD_BATCHES = 3;

/** A kernel that stops its run by the signal beside it when it has been timed for long enough. */
function trialKernel(threads: number, signal: AbortSignal) {
  const stop = new AbortController();
  let [batches, counted, begun, ended] = [0, 0, 0, 0];
  const kernel: KernelMaker = async (input) => {
    const inner = await interruptibleKernel(threads, signal)(input);
    return {
      name: inner.name,
      close: () => inner.close(),
      advance: async (steps) => {
        await inner.advance(steps);
        ended = performance.now();
        if (batches === COLD_BATCHES) begun = ended;
        if (batches > COLD_BATCHES) counted += steps;
        batches += 1;
        if (counted > 0 && ended - begun >= TRIAL_MS) stop.abort();
      },
    };
  };
  return {
    kernel,
    signal: AbortSignal.any([signal, stop.signal]),
    stepsPerSecond: () => (stop.signal.aborted ? (1000 * counted) / (ended - begun) : undefined),
  };
}

/** Throws a Failure when this version of Node has not what the solver is made of. */
function threadsFor(wanted: number | undefined): number {
  const features = detectFeatures();
  if (!features.simd) {
    throw new Failure(
      'missing-feature',
      EXIT.noAnswer,
      `the field solver needs WebAssembly with SIMD, which this Node (${process.version}) does not run; use Node 20 or later without options that switch it off`,
    );
  }
  if (wanted !== undefined && wanted > 1 && !features.threads) {
    throw new Failure('missing-feature', EXIT.noAnswer, 'this Node shares no memory between threads; use --threads 1');
  }
  return Math.min(wanted ?? usableThreads(), usableThreads());
}

/** The calling thread takes part in the work, so that signals and the terminal get their turn only between batches. */
const TURN_MS = 50;

function interruptibleKernel(threads: number, signal: AbortSignal): KernelMaker {
  return async (input) => {
    const kernel = await fastKernel(input, { threads, signal });
    let last = performance.now();
    return {
      name: kernel.name,
      close: () => kernel.close(),
      advance: async (steps) => {
        await kernel.advance(steps);
        if (performance.now() - last < TURN_MS) return;
        await new Promise<void>((resolve) => void setImmediate(resolve));
        last = performance.now();
      },
    };
  };
}

function told<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw failureOf(error);
  }
}

/** Bytes in a problem's words, as people read them. */
const inMegabytes = (text: string): string =>
  text.replace(/(\d+) bytes/, (_, bytes) => `${Math.ceil(Number(bytes) / 1e6)} MB`);

function memoryFailure({ value, allowed }: FieldError['problems'][number]): Failure {
  const given = `${Math.floor(Number(value) / 1e6)} MB`;
  const message = `the grid does not fit: ${inMegabytes(allowed)}, and --memory (by default half of the machine's) is ${given}; give more, or use --quality draft`;
  return new Failure('memory', EXIT.noAnswer, message);
}

/** What the solver refuses, and memory that the machine has not, as a Failure; anything else is a fault of ours. */
function failureOf(error: unknown): unknown {
  if (error instanceof FieldError) {
    const [memory] = error.problems.filter(({ code }) => code === 'memory');
    if (memory !== undefined) return memoryFailure(memory);
    const lines = error.message.split('\n').map((line) => `  ${visible(line)}`);
    const message = `the antenna cannot be predicted as asked; nothing was written\n${lines.join('\n')}`;
    return new Failure(error.problems[0]?.code ?? 'field', EXIT.noAnswer, message, { problems: error.problems });
  }
  if (error instanceof RangeError && /memory|MiB/i.test(error.message)) {
    const message = `the machine has not the memory for this grid (${error.message}); use --quality draft, or --memory to be told before`;
    return new Failure('memory', EXIT.noAnswer, message);
  }
  return error;
}
