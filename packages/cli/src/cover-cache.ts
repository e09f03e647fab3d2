import { predictionKey, type SoundDesign } from '@sheetwave/pack';
import { type CoverPrediction, type FlatCover, type PredictionQuality, sceneOf } from '@sheetwave/predict';
import { keepText, keptText } from './kept-files.ts';
import { solverVersion } from './solver-version.ts';

/* What covers do, worked out before: a kept file each under the key of antenna, cover, grid and solver. */

const ENDING = '.cover';
const FORMAT = 1;

type Sound = Pick<SoundDesign, 'design' | 'assembly'>;

/** Equal keys, equal answers. Throws FieldError for a cover that something is in the way of. */
export function coverKey({ design, assembly }: Sound, cover: FlatCover, quality: PredictionQuality): string {
  const { scene, ports, doubts } = sceneOf(assembly, { quality, cover: { ...cover, filled: true } });
  const { band, coax } = design;
  return predictionKey({
    scene,
    request: { quality, feed: 'as-built', twoMeshes: true, points: 201 },
    setting: { cover, band, coaxOhm: coax.coax.impedanceOhm, ports, doubts },
    solver: solverVersion(),
  });
}

/** The answer with this key, or undefined when there is none that is whole. */
export async function cachedCover(folder: string, key: string): Promise<CoverPrediction | undefined> {
  const text = await keptText(folder, `${key}${ENDING}`);
  if (text === undefined) return undefined;
  const value: unknown = JSON.parse(text);
  return isKept(value) && value.format === FORMAT && value.key === key ? value.prediction : undefined;
}

interface KeptCover {
  readonly format: number;
  readonly key: string;
  readonly prediction: CoverPrediction;
}

/** Told by its parts: a digest vouches for the contents. */
const isKept = (value: unknown): value is KeptCover =>
  typeof value === 'object' && value !== null && 'format' in value && 'key' in value && 'prediction' in value;

/** Keeps an answer. False when the disk refused. */
export const keepCover = (folder: string, key: string, prediction: CoverPrediction): Promise<boolean> =>
  keepText(folder, { key, ending: ENDING, text: JSON.stringify({ format: FORMAT, key, prediction }) });

const FINEST_FIRST: readonly PredictionQuality[] = ['fine', 'normal', 'draft'];

/** The best that is kept of an antenna in this cover; undefined when there is none. */
export async function keptCover(folder: string, sound: Sound, cover: FlatCover): Promise<CoverPrediction | undefined> {
  for (const quality of FINEST_FIRST) {
    const key = keyOrNone(sound, cover, quality);
    const kept = key === undefined ? undefined : await cachedCover(folder, key);
    if (kept !== undefined) return kept;
  }
  return undefined;
}

/** None for a cover that cannot be where it is said to be: nothing was kept of it. */
function keyOrNone(sound: Sound, cover: FlatCover, quality: PredictionQuality): string | undefined {
  try {
    return coverKey(sound, cover, quality);
  } catch {
    return undefined;
  }
}
