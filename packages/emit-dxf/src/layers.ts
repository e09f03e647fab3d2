/**
 * What a layer may carry: closed curves only, open lines only, short strokes as well as closed curves, or words.
 * A cutter follows a layer without judgement, so open lines and text must never reach one where a part is cut free or drilled.
 */
export type LayerUse = 'closed' | 'open' | 'strokes' | 'words';

export interface LayerDefinition {
  readonly name: string;
  /** Index of the DXF colour table, 1 to 7: what a screen shows, nothing a machine needs. */
  readonly colour: number;
  readonly use: LayerUse;
}

/**
 * One layer for each thing a machine does, in the order of the file: marks and inside contours come before the outside,
 * because a part that is cut free may move.
 */
export const LAYERS = [
  { name: 'ENGRAVE', colour: 6, use: 'strokes' },
  { name: 'BEND', colour: 4, use: 'strokes' },
  { name: 'DRILL', colour: 3, use: 'closed' },
  { name: 'LEAD_IN', colour: 4, use: 'open' },
  { name: 'CUT_INNER', colour: 5, use: 'closed' },
  { name: 'ROUGH_CUT', colour: 2, use: 'closed' },
  { name: 'CUT_TABBED', colour: 1, use: 'open' },
  { name: 'CUT_OUTER', colour: 1, use: 'closed' },
  { name: 'NOTE', colour: 7, use: 'words' },
] as const satisfies readonly LayerDefinition[];

export type LayerName = (typeof LAYERS)[number]['name'];
