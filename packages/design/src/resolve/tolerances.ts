import type { ReadFile } from '../schema/design-file.ts';
import type { OwnTolerances } from '../stock/tolerances.ts';

/** `[tolerances]` as the design holds it. */
export function tolerancesOf(file: ReadFile['tolerances']): OwnTolerances {
  return {
    cutMm: file?.cut,
    drillMm: file?.drill,
    spacerMm: file?.spacer,
    bendMm: file?.bend,
    sheetMm: file?.sheet,
    flatnessMm: file?.flatness,
    permittivity: file?.permittivity === undefined ? undefined : file.permittivity / 100,
  };
}
