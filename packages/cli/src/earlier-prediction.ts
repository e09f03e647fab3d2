import { resolve } from 'node:path';
import { PREDICTION_PATH, type PredictionRecord, readPackFile, readRecord, type SoundDesign } from '@sheetwave/pack';
import type { Context } from './context.ts';
import { visible } from './terminal.ts';

/**
 * The prediction in the pack that is about to be replaced, when it is of the very antenna that the new pack is for; otherwise says that
 * it is left out. The solver's scene is made only where there is a prediction to compare with.
 */
export async function earlierPrediction(
  { terminal, say }: Context,
  named: string,
  sound: SoundDesign,
): Promise<PredictionRecord | undefined> {
  const bytes = await readPackFile(resolve(terminal.workingFolder, named), PREDICTION_PATH);
  if (bytes === undefined) return undefined;
  const record = readRecord(new TextDecoder().decode(bytes));
  const { keyOf } = await import('./prediction-key.ts');
  if (record !== undefined && keyOf(sound, record.request) === record.key) return record;
  say(
    `The prediction in ${visible(named)} was of another antenna, or made by another version, and is left out; sheetwave predict makes a new one.\n`,
  );
  return undefined;
}
