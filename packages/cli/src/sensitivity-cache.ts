import { type PredictionRequest, readSensitivities, type SensitivityRecord, sensitivitiesText } from '@sheetwave/pack';
import { keepText, keptNames, keptText } from './kept-files.ts';

/* Sensitivities that were worked out before, a kept file each under the key of the design as it stands. */

const ENDING = '.sensitivities';

async function sensitivitiesIn(folder: string, name: string): Promise<SensitivityRecord | undefined> {
  const body = await keptText(folder, name);
  const record = body === undefined ? undefined : readSensitivities(body);
  return record !== undefined && name === `${record.key}${ENDING}` ? record : undefined;
}

/** All that are kept of a design, by the keys that `keyOf` gives it. */
export async function cachedSensitivities(
  folder: string,
  keyOf: (request: PredictionRequest) => string,
): Promise<readonly SensitivityRecord[]> {
  const found: SensitivityRecord[] = [];
  for (const name of await keptNames(folder, ENDING)) {
    const record = await sensitivitiesIn(folder, name);
    if (record !== undefined && keyOf(record.request) === record.key) found.push(record);
  }
  return found;
}

/** Keeps sensitivities, beside those of other dimensions that are kept of the same design already. False when the disk refused. */
export async function keepSensitivities(folder: string, record: SensitivityRecord): Promise<boolean> {
  const before = await sensitivitiesIn(folder, `${record.key}${ENDING}`);
  const now = new Set(record.sensitivities.map(({ path }) => path));
  const others = (before?.sensitivities ?? []).filter(({ path }) => !now.has(path));
  const all = { ...record, sensitivities: [...record.sensitivities, ...others] };
  return keepText(folder, { key: record.key, ending: ENDING, text: sensitivitiesText(all) });
}
