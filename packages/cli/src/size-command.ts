import { basename, dirname, extname, join } from 'node:path';
import { type Design, nextRevision, parseQuantity, reviseDesignText } from '@sheetwave/design';
import { type SizingResult, type SizingStep, sizeDesign } from '@sheetwave/predict';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { Failure, usageFailure } from './failure.ts';
import { writeNewFile } from './new-design-file.ts';
import { predictOptions } from './predict-options.ts';
import { readCheckedDesign } from './read-checked-design.ts';
import { nameOfInput } from './read-input.ts';
import { countText, findingLines, type Outcome } from './report.ts';
import { sizingJson, sizingText, stepLine } from './sizing-text.ts';
import { leastGainDbi, solverOfMany } from './solve-designs.ts';
import { visible } from './terminal.ts';
import { stoppedCode } from './write-made.ts';

const MOST_SOLVES = 200;

/** `sheetwave size DESIGN`. */
export async function runSize(context: Context): Promise<Outcome> {
  const { terminal, values, switches, say } = context;
  const options = predictOptions(switches, values);
  const wanted = budgetOf(values.get('budget'));
  const roundMm = roundOf(values.get('round'));
  const { text, drawings, checked } = await readCheckedDesign(context);
  const { design } = checked;
  const budget = wanted ?? usualBudget(design);
  const file = outFile(context, design);
  const keep = await keeper(context, file, design);
  const { value: found, by } = await terminal.interruptible(async (signal) => {
    const solve = solverOfMany(context, { options, signal });
    try {
      return await sizeDesign({
        designText: text,
        files: drawings,
        budget,
        roundMm,
        signal,
        solve: async (one) => {
          const prediction = await solve(one).catch(unlessNoAnswer);
          return prediction && { response: prediction.response, gainDbi: leastGainDbi(prediction, one) };
        },
        onStep: async (step) => {
          say(stepLine(step, budget));
          if (step.best) await keep(step);
        },
      });
    } catch (error) {
      if (signal.aborted) return undefined;
      throw error;
    }
  });
  if (found === undefined)
    throw new Failure('interrupted', stoppedCode(by), 'interrupted before the first solution; nothing was written');
  if (!found.ok) return refused(context, found.findings);
  await keep(found.best);
  const exitCode = by === undefined ? EXIT.done : stoppedCode(by);
  const shown = { design, file, budget };
  return { exitCode, json: sizingJson(found, shown), text: sizingText(found, shown) };
}

/** A candidate that the solver gives no answer for is left out. */
function unlessNoAnswer(error: unknown): undefined {
  if (error instanceof Failure && error.exitCode === EXIT.noAnswer) return undefined;
  throw error;
}

function refused(
  { operand = '-', terminal, say }: Context,
  findings: Extract<SizingResult, { ok: false }>['findings'],
): Outcome {
  const name = nameOfInput(operand);
  say(findingLines(findings, name, { output: terminal.stderr, env: terminal.env }));
  say(`${name} cannot be sized: ${countText(findings)}. Nothing was written.\n`);
  return { exitCode: EXIT.designHasErrors, json: { findings }, text: '' };
}

/** The harness of an array adds ways to go wrong. */
const usualBudget = ({ lattice }: Design): number => (lattice.rows * lattice.columns > 1 ? 50 : 25);

function budgetOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const value = /^\d{1,4}$/.test(text) ? Number(text) : Number.NaN;
  if (value >= 1 && value <= MOST_SOLVES) return value;
  throw usageFailure(`--budget ${visible(text)} is not a whole number from 1 to ${MOST_SOLVES}`);
}

/** A bare number is taken as millimetres. */
function roundOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const read = parseQuantity(/^[\d.]+$/.test(text) ? `${text} mm` : text, 'length', { min: 0.01, max: 5 });
  if (read.ok) return read.value;
  throw usageFailure(`--round ${visible(text)} is not a step from 0.01 mm to 5 mm; write --round 0.1`);
}

/** `panel.toml` of revision A goes to `panel-B.toml` beside it. */
function outFile({ values, operand = '-' }: Context, { revision }: Design): string {
  const given = values.get('out');
  if (given !== undefined) return given;
  if (operand === '-') throw usageFailure('a design from standard input needs --out: say where the new revision goes');
  const ending = extname(operand);
  return join(dirname(operand), `${basename(operand, ending)}-${nextRevision(revision)}${ending}`);
}

/**
 * Writes the best so far as a new revision, each time whole. The first time the file must not be there yet, unless `--force`, so that nothing of the user's is replaced.
 */
async function keeper(
  { terminal, switches }: Context,
  file: string,
  { revision }: Design,
): Promise<(step: SizingStep) => Promise<void>> {
  let force = switches.has('force');
  let written: string | undefined;
  return async (step) => {
    const revised = reviseDesignText(step.text, nextRevision(revision));
    const text = revised.ok ? revised.text : step.text;
    if (text === written) return;
    await writeNewFile({ name: file, workingFolder: terminal.workingFolder, text, force });
    written = text;
    force = true;
  };
}
