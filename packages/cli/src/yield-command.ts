import { type YieldReport, yieldReport } from '@sheetwave/predict';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { usageFailure } from './failure.ts';
import { predictOptions } from './predict-options.ts';
import type { Outcome } from './report.ts';
import { type Measured, measuredSlopes, unprepared } from './sensitivity-command.ts';
import { solverOfMany } from './solve-designs.ts';
import { visible } from './terminal.ts';
import { textTable } from './text-table.ts';

/** Antennas drawn at random that are solved to judge the model by. */
const CHECKS = 6;

/** `sheetwave yield DESIGN`. */
export async function runYield(context: Context): Promise<Outcome> {
  const seed = wholeOf(context, 'seed', { usual: 1, most: 4_294_967_295 });
  const samples = wholeOf(context, 'samples', { usual: 20_000, most: 1_000_000 });
  const checks = wholeOf(context, 'checks', { usual: CHECKS, most: 100 });
  const options = predictOptions(context.switches, context.values);
  const then = async ({ read, found }: Measured, _: undefined, signal: AbortSignal): Promise<Outcome> => {
    const { design } = read.checked;
    const solve = solverOfMany(context, { options, signal });
    context.say(checks > 0 ? `Solving ${checks} antennas with random errors.\n` : '');
    const report = await yieldReport({
      model: found.model,
      vswr: design.targets.vswr,
      samples,
      seed,
      ...(checks === 0 ? {} : { checks: { count: checks, design, solve: async (one) => (await solve(one)).response } }),
    });
    return {
      exitCode: EXIT.done,
      json: {
        design: { name: design.name, revision: design.revision },
        ...report,
        modelError: report.modelError ?? null,
        withModelError: report.withModelError ?? null,
        allTimesFor90: report.allTimesFor90 ?? null,
        shares: report.shares.map((share) => ({ ...share, toleranceFor90: share.toleranceFor90 ?? null })),
      },
      text: yieldText(report, design.name),
    };
  };
  return measuredSlopes(context, { prepare: unprepared, then });
}

function wholeOf({ values }: Context, name: string, { usual, most }: { usual: number; most: number }): number {
  const text = values.get(name);
  if (text === undefined) return usual;
  const value = /^\d{1,10}$/.test(text) ? Number(text) : Number.NaN;
  if (value >= (name === 'samples' ? 100 : 0) && value <= most) return value;
  throw usageFailure(
    `--${name} ${visible(text)} is not a whole number from ${name === 'samples' ? 100 : 0} to ${most}`,
  );
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

function yieldText(report: YieldReport, name: string): string {
  const rows = report.shares.map(({ words, tolerance, yieldIfExact, varianceShare, toleranceFor90 }) => [
    words,
    `+-${tolerance.toFixed(3)}`,
    percent(yieldIfExact),
    percent(varianceShare),
    toleranceFor90 === undefined ? 'not by itself' : `+-${toleranceFor90.toFixed(3)}`,
  ]);
  const [dominant] = report.shares;
  const range = report.withModelError;
  return `${[
    `${visible(name)}: ${percent(report.yield)} of antennas built to these tolerances meet VSWR ${report.vswr} over the band (${percent(report.low)} to ${percent(report.high)} for ${report.samples} samples, seed ${report.seed}).`,
    range === undefined || report.modelError === undefined
      ? 'The model was not checked against field solutions of random antennas; --checks does.'
      : `The model misses the worst reflection by ${report.modelError.toFixed(3)} (${report.checks.length} antennas near the limit, solved): the yield is ${percent(range[0])} to ${percent(range[1])} within that.`,
    '',
    ...textTable([['dimension', 'tolerance', 'yield if exact', 'variance', 'for 90 %'], ...rows]),
    '',
    ...(dominant === undefined ? [] : [`The ${dominant.words} counts most.`]),
    report.allTimesFor90 === undefined
      ? 'No tolerances give 90 %: the design itself misses its target, so size it first.'
      : `All tolerances times ${report.allTimesFor90.toFixed(2)} give 90 %.`,
    'Tolerances are two standard deviations, independent of each other, and the same for all elements of an array.',
  ].join('\n')}\n`;
}
