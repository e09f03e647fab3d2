import { type MakePackResult, makePack, numbersBeside, type PredictionRecord, recordText } from '@sheetwave/pack';
import { predictionReport } from '@sheetwave/predict';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { Failure } from './failure.ts';
import { findPrediction } from './find-prediction.ts';
import { sensitivitiesForPack } from './kept-solutions.ts';
import { predictOptions } from './predict-options.ts';
import { predictionText } from './prediction-text.ts';
import { readDrawings } from './read-drawings.ts';
import { nameOfInput, readDesignText } from './read-input.ts';
import { countText, findingLines, type Outcome } from './report.ts';
import { visible } from './terminal.ts';
import { folderNamed, type Made, refusePlace, stoppedCode, writeMade, writtenJson, wroteWords } from './write-made.ts';

/** `sheetwave predict DESIGN`. */
export async function runPredict(context: Context): Promise<Outcome> {
  const { terminal, operand = '-', version, say } = context;
  const options = predictOptions(context.switches, context.values);
  const name = nameOfInput(operand);
  const designText = await readDesignText(operand, terminal);
  const drawings = await readDrawings(designText, operand, terminal);
  const tell = (findings: MakePackResult['findings']) =>
    say(findingLines(findings, name, { output: terminal.stderr, env: terminal.env }));
  let found: Found | undefined;
  const made = await whole(context, (signal) =>
    makePack({
      designText,
      drawings,
      toolVersion: version,
      predictionOf: async (sound) => {
        tell(sound.findings);
        await refusePlace(context, sound.findings);
        found = await findPrediction({ context, options, sound, signal });
        return found.record;
      },
      sensitivitiesOf: async (sound) => (await sensitivitiesForPack(context, folderNamed(context), sound))?.record,
    }),
  );
  if (made.ok) {
    if (found === undefined) throw new Error('a sound design was not predicted');
    return write(context, { made, found });
  }
  tell(made.findings);
  say(`${name} cannot be predicted: ${countText(made.findings)}. Nothing was written.\n`);
  return { exitCode: EXIT.designHasErrors, json: { findings: made.findings }, text: '' };
}

interface Found {
  readonly record: PredictionRecord;
  readonly isFromCache: boolean;
}

/** Work that ends as an interruption when a signal came meanwhile. */
async function whole<T>({ terminal }: Context, work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const { value, by } = await terminal.interruptible(async (signal) => {
    try {
      return { done: await work(signal) };
    } catch (error) {
      if (signal.aborted) return undefined;
      throw error;
    }
  });
  if (value !== undefined && by === undefined) return value.done;
  throw new Failure('interrupted', stoppedCode(by), 'interrupted; nothing was written');
}

async function write(
  context: Context,
  { made, found }: { readonly made: Made; readonly found: Found },
): Promise<Outcome> {
  const written = await writeMade(context, made);
  const { record, isFromCache } = found;
  const report = predictionReport(made.design, record.prediction);
  const beside = numbersBeside({ design: made.design, toolVersion: context.version }, report);
  const files = made.files.filter(({ path }) => path.startsWith('prediction/')).map(({ path }) => path);
  const tail = `${wroteWords(written)}. The prediction is in ${visible(written.named)}/prediction: ${files.map((path) => path.replace('prediction/', '')).join(', ')}.`;
  return {
    exitCode: EXIT.done,
    json: {
      ...JSON.parse(recordText(record, beside)),
      isFromCache,
      findings: [...made.findings, ...record.prediction.findings],
      ...writtenJson(written),
    },
    text: `${visible(predictionText(report), true)}\n\n${tail}\n`,
  };
}
