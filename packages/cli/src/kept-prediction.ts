import type { PredictionRecord, PredictionRequest, SoundDesign } from '@sheetwave/pack';
import type { Context } from './context.ts';
import { earlierPrediction } from './earlier-prediction.ts';
import { packFolderName } from './pack-folder-name.ts';
import { cachedOf, cacheFolder } from './prediction-cache.ts';
import { keyOf } from './prediction-key.ts';

/** A prediction of this very antenna that was made before, and where it was found. */
export interface KeptPrediction {
  readonly record: PredictionRecord;
  readonly found: string;
}

/**
 * The best prediction as built that is kept of a design, in the cache of `predict` or in its build pack; undefined when there is none.
 * One of another antenna, or by another solver, is never taken.
 */
export async function keptPrediction(context: Context, sound: SoundDesign): Promise<KeptPrediction | undefined> {
  const { terminal, operand = '-' } = context;
  const cached = await cachedOf(cacheFolder(terminal.env), (request) => keyOf(sound, request));
  const asBuilt = cached.filter(({ request }) => request.feed === 'as-built');
  const [best] = asBuilt.sort((a, b) => worth(b.request) - worth(a.request));
  if (best !== undefined) return { record: best, found: 'kept by sheetwave predict' };
  const pack = packFolderName(operand, terminal.workingFolder);
  const inPack = await earlierPrediction(context, pack, sound);
  return inPack?.request.feed === 'as-built' ? { record: inPack, found: `in ${pack}` } : undefined;
}

/** Finer grids first, then a stated error of the grid, then more frequencies. */
const worth = ({ quality, twoMeshes, points }: PredictionRequest): number =>
  1e6 * ['draft', 'normal', 'fine'].indexOf(quality) + (twoMeshes ? 5e5 : 0) + points;
