import type { Assembly, EmittedFile } from '@sheetwave/geometry';

export type Print = Assembly['design']['print'];

/** Files of one kind of jig, and what was left out or made otherwise, with the reason. */
export interface Printed {
  readonly files: readonly EmittedFile[];
  readonly notes: readonly string[];
}

/** Up to two decimals, as they are said and engraved: `1.5`. */
export const short = (mm: number): string => `${Number(mm.toFixed(2))}`;
