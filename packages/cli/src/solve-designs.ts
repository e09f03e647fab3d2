import type { Design } from '@sheetwave/design';
import { assemble } from '@sheetwave/geometry';
import { gainWithin, type Prediction } from '@sheetwave/predict';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { Failure } from './failure.ts';
import { findPrediction } from './find-prediction.ts';
import type { PredictOptions } from './predict-options.ts';

interface Series {
  readonly options: PredictOptions;
  readonly signal: AbortSignal;
}

/**
 * Predicts one design after the other, from the cache where it was made before, without a word about each. Throws a Failure for a
 * design whose parts do not meet, and when the solver gives no answer.
 */
export function solverOfMany(context: Context, { options, signal }: Series): (design: Design) => Promise<Prediction> {
  const quiet: Context = { ...context, say: () => undefined, isQuiet: true };
  return async (design) => {
    const { assembly } = assemble(design);
    if (assembly === undefined) {
      throw new Failure('bad-design', EXIT.designHasErrors, 'the design with changed sizes cannot be put together');
    }
    const { record } = await findPrediction({ context: quiet, options, sound: { design, assembly }, signal });
    return record.prediction;
  };
}

/** Least realised gain over the design's band, dBi; undefined without far fields. */
export function leastGainDbi({ gains }: Prediction, { band }: Design): number | undefined {
  const own = gains.find(({ port }) => port === 0);
  return own && gainWithin(own, band, 'realisedGainDbi')?.lowest.dbi;
}
