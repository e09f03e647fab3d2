import { resolve } from 'node:path';
import {
  type PredictionRecord,
  type PredictionRequest,
  readPackFile,
  readSensitivities,
  SENSITIVITIES_PATH,
  type SensitivityRecord,
  type SoundDesign,
} from '@sheetwave/pack';
import type { Context } from './context.ts';
import { earlierPrediction } from './earlier-prediction.ts';
import { EXIT } from './exit-code.ts';
import { Failure, fileFailure } from './failure.ts';
import { cacheFolder } from './kept-files.ts';
import { cachedOf } from './prediction-cache.ts';
import { readBytes } from './read-input.ts';
import { cachedSensitivities } from './sensitivity-cache.ts';
import { visible } from './terminal.ts';

/*
 * What was solved of a design before, for its build pack. Nothing of another antenna, or by another solver, is ever taken: each record
 * stands under a digest of the antenna as the solver sees it, of what was asked, and of the solver's code.
 */

/** Something that was solved before, and where it was found, for the user. */
export interface Kept<T> {
  readonly record: T;
  readonly found: string;
}

type KeyOf = (request: PredictionRequest) => string;

/** The key of a design for what was asked; made once for each. The solver's scene is made only when it is called. */
async function keysOf(sound: SoundDesign): Promise<KeyOf> {
  const { keyOf } = await import('./prediction-key.ts');
  const keys = new Map<string, string>();
  return (request) => {
    const asked = JSON.stringify(request);
    const key = keys.get(asked) ?? keyOf(sound, request);
    keys.set(asked, key);
    return key;
  };
}

/** Finer grids first, then a stated error of the grid, then more frequencies. */
const worth = ({ quality, twoMeshes, points }: PredictionRequest): number =>
  1e6 * ['draft', 'normal', 'fine'].indexOf(quality) + (twoMeshes ? 5e5 : 0) + points;

/** The best prediction as built that `predict` kept of a design. */
export async function cachedPredictionOf(
  { terminal }: Context,
  sound: SoundDesign,
): Promise<Kept<PredictionRecord> | undefined> {
  const cached = await cachedOf(cacheFolder(terminal.env), await keysOf(sound));
  const asBuilt = cached.filter(({ request }) => request.feed === 'as-built');
  const [record] = asBuilt.sort((a, b) => worth(b.request) - worth(a.request));
  return record && { record, found: 'kept by sheetwave predict' };
}

/** For a pack: what the earlier pack in that folder has, or the better one that `predict` kept. */
export async function predictionForPack(
  context: Context,
  named: string,
  sound: SoundDesign,
): Promise<Kept<PredictionRecord> | undefined> {
  const cached = context.switches.has('no-cache') ? undefined : await cachedPredictionOf(context, sound);
  const quiet: Context = { ...context, say: () => undefined };
  const earlier = await earlierPrediction(cached === undefined ? context : quiet, named, sound);
  if (earlier === undefined) return cached;
  const isBetter =
    cached !== undefined &&
    earlier.request.feed === 'as-built' &&
    worth(cached.record.request) > worth(earlier.request);
  return isBetter ? cached : { record: earlier, found: 'of the earlier pack' };
}

/** Larger files than this are no list of sensitivities. */
const LARGEST_BYTES = 20_000_000;

/**
 * For a pack: those of the file that `--sensitivities` names, else those that `sensitivity` kept or the earlier pack has. Throws a Failure
 * for a named file that is of another antenna.
 */
export async function sensitivitiesForPack(
  context: Context,
  named: string,
  sound: SoundDesign,
): Promise<Kept<SensitivityRecord> | undefined> {
  const given = context.values.get('sensitivities');
  if (given !== undefined) return { record: await givenSensitivities(context, given, sound), found: `of ${given}` };
  const keyOf = await keysOf(sound);
  const cached = context.switches.has('no-cache')
    ? []
    : await cachedSensitivities(cacheFolder(context.terminal.env), keyOf);
  const earlier = await sensitivitiesInPack(context, named);
  const all: readonly Kept<SensitivityRecord>[] = [
    ...(earlier !== undefined && keyOf(earlier.request) === earlier.key
      ? [{ record: earlier, found: 'of the earlier pack' }]
      : []),
    ...cached.map((record) => ({ record, found: 'kept by sheetwave sensitivity' })),
  ];
  const [best] = [...all].sort((a, b) => rank(b.record) - rank(a.record));
  return best;
}

/** More dimensions first, then the finer grid. */
const rank = ({ sensitivities, request }: SensitivityRecord): number => 1e8 * sensitivities.length + worth(request);

async function sensitivitiesInPack({ terminal }: Context, named: string): Promise<SensitivityRecord | undefined> {
  const bytes = await readPackFile(resolve(terminal.workingFolder, named), SENSITIVITIES_PATH);
  return bytes === undefined ? undefined : readSensitivities(new TextDecoder().decode(bytes));
}

async function givenSensitivities({ terminal }: Context, name: string, sound: SoundDesign): Promise<SensitivityRecord> {
  const text = new TextDecoder().decode(await readBytes(name, terminal, LARGEST_BYTES));
  const record = readSensitivities(text);
  if (record === undefined) {
    throw fileFailure(
      'bad-sensitivities',
      `${visible(name)} holds no sensitivities; give what sheetwave sensitivity --json prints, or sensitivities.json of a build pack`,
    );
  }
  const keyOf = await keysOf(sound);
  if (keyOf(record.request) === record.key) return record;
  throw new Failure(
    'other-antenna',
    EXIT.files,
    `${visible(name)} is of another antenna, or was made by another version; run sheetwave sensitivity on this design, or leave --sensitivities out. Nothing was written`,
  );
}
