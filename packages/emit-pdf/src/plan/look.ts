/** How words of a plan look; mm. Line is from baseline to baseline. */
export interface WordLook {
  readonly sizeMm: number;
  readonly lineMm: number;
  readonly bold?: boolean;
}

export const BODY: WordLook = { sizeMm: 3.3, lineMm: 4.9 };
export const TITLE: WordLook = { sizeMm: 8, lineMm: 10.5, bold: true };
export const HEAD_1: WordLook = { sizeMm: 5.6, lineMm: 7.6, bold: true };
export const HEAD_2: WordLook = { sizeMm: 4, lineMm: 5.8, bold: true };
export const CAPTION: WordLook = { sizeMm: 2.8, lineMm: 4 };
export const CELL: WordLook = { sizeMm: 2.7, lineMm: 3.8 };
export const CELL_HEAD: WordLook = { ...CELL, bold: true };

export const RULE = { stroke: '#000000', width: 0.15, fill: 'none' } as const;
export const FRAME = { stroke: '#000000', width: 0.4, fill: 'none' } as const;
