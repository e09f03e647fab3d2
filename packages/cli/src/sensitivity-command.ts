import { dimensionsOf } from '@sheetwave/design';
import { type SensitivityRecord, sensitivitiesText } from '@sheetwave/pack';
import { type Sensitivities, sensitivitiesOf } from '@sheetwave/predict';
import { vswrInBand } from '@sheetwave/rf';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { Failure, usageFailure } from './failure.ts';
import { cacheFolder } from './kept-files.ts';
import { ratioText } from './number-words.ts';
import { predictOptions } from './predict-options.ts';
import { keyOf } from './prediction-key.ts';
import { type CheckedDesign, readCheckedDesign } from './read-checked-design.ts';
import type { Outcome } from './report.ts';
import { keepSensitivities } from './sensitivity-cache.ts';
import { solverOfMany } from './solve-designs.ts';
import { visible } from './terminal.ts';
import { textTable } from './text-table.ts';
import { stoppedCode } from './write-made.ts';

/** A design with what its dimensions do. */
export interface Measured {
  readonly read: CheckedDesign;
  readonly found: Sensitivities;
  /** The part of it that goes into a build plan. */
  readonly record: SensitivityRecord;
}

/** What a command does around the field solutions. */
interface Around<P, T> {
  /** Once the design is read and before anything is solved: whatever may be wrong is found here. */
  readonly prepare: (read: CheckedDesign) => Promise<P>;
  readonly then: (measured: Measured, prepared: P, signal: AbortSignal) => Promise<T>;
}

/** Field solutions beside each other, for the commands that rest on them. Throws a Failure when the user interrupts. */
export async function measuredSlopes<P, T>(context: Context, { prepare, then }: Around<P, T>): Promise<T> {
  const { terminal, lists, say } = context;
  const options = predictOptions(context.switches, context.values);
  const read = await readCheckedDesign(context);
  const { design } = read.checked;
  const paths = onlyPaths(
    lists.get('only'),
    dimensionsOf(design).map(({ path }) => path),
  );
  const prepared = await prepare(read);
  const { value, by } = await terminal.interruptible(async (signal) => {
    const solve = solverOfMany(context, { options, signal });
    try {
      const found = await sensitivitiesOf(design, {
        solve: async (one) => (await solve(one)).response,
        paths,
        signal,
        onSolve: (done, all) => say(`Solution ${done} of ${all}.\n`),
      });
      if (found === undefined) return undefined;
      const key = keyOf(read.checked, options.request);
      const record = { key, request: options.request, sensitivities: found.sensitivities };
      if (options.useCache) await keepSensitivities(cacheFolder(terminal.env), record);
      return { done: await then({ read, found, record }, prepared, signal) };
    } catch (error) {
      if (signal.aborted) return undefined;
      throw error;
    }
  });
  if (value !== undefined && by === undefined) return value.done;
  throw new Failure('interrupted', stoppedCode(by), 'interrupted; what was solved is kept and is not solved again');
}

/** Nothing to prepare. */
export const unprepared = async (): Promise<undefined> => undefined;

function onlyPaths(given: readonly string[] | undefined, known: readonly string[]): readonly string[] | undefined {
  for (const path of given ?? []) {
    if (!known.includes(path)) {
      throw usageFailure(`--only ${visible(path)} is not a dimension of this design; it has ${known.join(', ')}`);
    }
  }
  return given;
}

/** `sheetwave sensitivity DESIGN`. */
export async function runSensitivity(context: Context): Promise<Outcome> {
  const then = async ({ read, found, record }: Measured): Promise<Outcome> => {
    const { design } = read.checked;
    const worst = vswrInBand(found.nominal, design.band)?.worst;
    return {
      exitCode: EXIT.done,
      json: {
        ...JSON.parse(sensitivitiesText(record)),
        design: { name: design.name, revision: design.revision },
        vswr: worst?.vswr ?? null,
        solves: found.solves,
        model: found.model,
      },
      text: sensitivityText(found, {
        name: design.name,
        vswr: worst?.vswr ?? Number.POSITIVE_INFINITY,
        isKept: !context.switches.has('no-cache'),
      }),
    };
  };
  return measuredSlopes(context, { prepare: unprepared, then });
}

/** Slopes that differ by more than this from one side to the other are marked. */
const BENT = 0.3;

function sensitivityText(
  { sensitivities, solves, model }: Sensitivities,
  { name, vswr, isKept }: { name: string; vswr: number; isKept: boolean },
): string {
  const rows = sensitivities.map(({ words, path, unit, nominal, mhzPerTenthMm, dbPerTenthMm, bend }) => [
    words,
    path,
    unit === 'mm' ? `${Math.round(nominal * 1000) / 1000} mm` : `${Math.round(nominal * 1000) / 1000}`,
    `${signed(mhzPerTenthMm, 1)} MHz`,
    `${signed(dbPerTenthMm, 2)} dB`,
    [
      ...(unit === '' ? ['for 1 %'] : []),
      ...(bend > BENT && Math.abs(mhzPerTenthMm) > 1 ? ['bent: holds for small changes only'] : []),
    ].join('; '),
  ]);
  const checked = sensitivities.find(({ halfStep }) => halfStep !== undefined);
  return `${[
    `${visible(name)}: what 0.1 mm more does. MHz: how far the curve moves. dB: how much the worst reflection in the band grows (VSWR ${ratioText(vswr)} now).`,
    '',
    ...textTable([['dimension', 'path', 'now', 'curve', 'worst reflection', ''], ...rows]),
    '',
    `${solves} field solutions, on grids that follow the edges.${checked === undefined ? '' : ` With half the step the ${checked.words} gives a slope that differs by ${(100 * (checked.halfStep ?? 0)).toFixed(0)} %.`}`,
    `With all dimensions off by half their tolerance at once, these slopes miss the reflection by ${model.error.toFixed(3)}.`,
    ...(isKept ? ['Kept: sheetwave make puts them into the build plan of this design.'] : []),
  ].join('\n')}\n`;
}

const signed = (value: number, digits: number): string => `${value > 0 ? '+' : ''}${value.toFixed(digits)}`;
