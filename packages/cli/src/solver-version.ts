import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';

const PACKAGES = ['@sheetwave/field', '@sheetwave/predict'] as const;

/** A digest of the solver's own code, so that a prediction by other code is never taken for one by this. */
export function solverVersion(): string {
  const digest = createHash('sha256');
  for (const name of PACKAGES) {
    const folder = new URL('.', import.meta.resolve(name));
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((path) => path.replaceAll('\\', '/'));
    for (const path of files.filter((one) => /\.[jt]s$/.test(one)).sort())
      digest.update(`${path}\0`).update(readFileSync(new URL(path, folder)));
  }
  return digest.digest('hex');
}
