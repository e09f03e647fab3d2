import type { PredictionRecord, SoundDesign } from '@sheetwave/pack';
import type { Context } from './context.ts';
import { cacheFolder } from './kept-files.ts';
import type { PredictOptions } from './predict-options.ts';
import { cachedPrediction, keepPrediction } from './prediction-cache.ts';
import { keyOf } from './prediction-key.ts';
import { ProgressLine, timeText } from './progress-line.ts';
import { type Solver, solverFor } from './solver.ts';
import { keepSpeed, knownSpeed, usualSpeed } from './solver-speed.ts';

interface Wish {
  readonly context: Context;
  readonly options: PredictOptions;
  readonly sound: Pick<SoundDesign, 'design' | 'assembly'>;
  readonly signal: AbortSignal;
}

/** The prediction of a sound design: one that was made before, or a new one. Throws a Failure when there is none. */
export async function findPrediction(
  wish: Wish,
): Promise<{ readonly record: PredictionRecord; readonly isFromCache: boolean }> {
  const { context, options, sound } = wish;
  const solver = solverFor(sound, options);
  const key = keyOf(sound, options.request);
  const folder = cacheFolder(context.terminal.env);
  const known = options.useCache ? await cachedPrediction(folder, key) : undefined;
  if (known !== undefined) {
    context.say('This very antenna was predicted before; --no-cache solves it again.\n');
    return { record: known, isFromCache: true };
  }
  const record = { key, request: options.request, prediction: await solved(wish, solver, folder) };
  if (options.useCache && !(await keepPrediction(folder, record)))
    context.say(`The prediction could not be kept in ${folder}; it will be solved again next time.\n`);
  return { record, isFromCache: false };
}

async function solved({ context, options, signal }: Wish, solver: Solver, folder: string) {
  const { cost, work } = solver.plan;
  const speed = await speedOf(solver, folder, signal);
  const what = `${count(cost.cells)} cells, ${Math.ceil(cost.memoryBytes / 1e6)} MB, about ${count(cost.steps)} steps`;
  context.say(
    `Solving ${what} on ${solver.threads} ${solver.threads === 1 ? 'thread' : 'threads'}: about ${timeText(work / speed)}.\n`,
  );
  const begun = performance.now();
  const prediction = await withProgress(context, options.showProgress, (onProgress) =>
    solver.solve({ signal, onProgress }),
  );
  const seconds = (performance.now() - begun) / 1000;
  if (options.useCache)
    await keepSpeed(folder, { threads: solver.threads, work: work * (prediction.cost.steps / cost.steps), seconds });
  context.say(`Solved in ${timeText(seconds)}.\n`);
  return prediction;
}

/** A run that is guessed to take longer is worth a trial of a second before its time is told. */
const WORTH_A_TRIAL_S = 10;

async function speedOf(solver: Solver, folder: string, signal: AbortSignal): Promise<number> {
  const usual = usualSpeed(solver.threads);
  const known = await knownSpeed(folder, solver.threads);
  if (known !== undefined || solver.plan.work / usual < WORTH_A_TRIAL_S) return known ?? usual;
  return (await solver.measureSpeed(signal)) ?? usual;
}

/** Runs work that tells how far it is, with a line that shows it; quietly with `--json`, unless it is wanted. */
export async function withProgress<T>(
  { terminal, isQuiet }: Context,
  isWanted: boolean,
  work: (onProgress: (at: { run: number; runs: number; step: number; steps: number }) => void) => Promise<T>,
): Promise<T> {
  if (isQuiet && !isWanted) return work(() => undefined);
  const line = new ProgressLine(terminal.stderr, () => performance.now() / 1000);
  try {
    return await work(({ run, runs, step, steps }) => {
      line.show((run + Math.min(1, step / steps)) / runs, 'Solving');
    });
  } finally {
    line.clear();
  }
}

/** `1.2 million`, `148 000`. */
function count(value: number): string {
  if (value >= 999_500) return `${(value / 1e6).toFixed(1)} million`;
  return Math.round(value)
    .toString()
    .replace(/\B(?=(\d{3})+$)/g, '\u202f');
}
