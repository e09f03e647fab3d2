import type { PredictionRecord, SoundDesign } from '@sheetwave/pack';
import type { Context } from './context.ts';
import { earlierPrediction } from './earlier-prediction.ts';
import { cachedPredictionOf, type Kept } from './kept-solutions.ts';
import { packFolderName } from './pack-folder-name.ts';

/**
 * The best prediction as built that is kept of a design, in the cache of `predict` or in its build pack; undefined when there is none.
 * One of another antenna, or by another solver, is never taken.
 */
export async function keptPrediction(
  context: Context,
  sound: SoundDesign,
): Promise<Kept<PredictionRecord> | undefined> {
  const { terminal, operand = '-' } = context;
  const cached = await cachedPredictionOf(context, sound);
  if (cached !== undefined) return cached;
  const pack = packFolderName(operand, terminal.workingFolder);
  const inPack = await earlierPrediction(context, pack, sound);
  return inPack?.request.feed === 'as-built' ? { record: inPack, found: `in ${pack}` } : undefined;
}
