import { join } from 'node:path';
import { type PredictionRecord, type PredictionRequest, readRecord, readRequest, recordText } from '@sheetwave/pack';
import { keepText, keptNames, keptText } from './kept-files.ts';
import { readStart } from './read-input.ts';

/* Predictions that were made before, a kept file each under its key. */

const ENDING = '.prediction';
const nameOf = (key: string): string => `${key}${ENDING}`;

/** The prediction with this key, or undefined when there is none that is whole. */
export async function cachedPrediction(folder: string, key: string): Promise<PredictionRecord | undefined> {
  const body = await keptText(folder, nameOf(key));
  const record = body === undefined ? undefined : readRecord(body);
  return record?.key === key ? record : undefined;
}

/** Bytes at the start of an entry that its request stands in. */
const HEAD_BYTES = 1024;

/**
 * The entries that stand under the key of what they say they were asked for, whole ones only. `keyOf` gives that key; only the start of
 * other entries is read.
 */
export async function cachedOf(
  folder: string,
  keyOf: (request: PredictionRequest) => string,
): Promise<readonly PredictionRecord[]> {
  const keys = new Map<string, string>();
  const found: PredictionRecord[] = [];
  for (const name of await keptNames(folder, ENDING)) {
    const head = await readStart(join(folder, name), HEAD_BYTES).catch(() => new Uint8Array());
    const asked = /"request":(\{[^{}]*\})/.exec(new TextDecoder().decode(head))?.[1];
    const request = asked === undefined ? undefined : readRequest(asked);
    if (asked === undefined || request === undefined) continue;
    const key = keys.get(asked) ?? keyOf(request);
    keys.set(asked, key);
    const record = name === nameOf(key) ? await cachedPrediction(folder, key) : undefined;
    if (record !== undefined) found.push(record);
  }
  return found;
}

/** Keeps a prediction. False when the disk refused. */
export const keepPrediction = (folder: string, record: PredictionRecord): Promise<boolean> =>
  keepText(folder, { key: record.key, ending: ENDING, text: recordText(record) });
