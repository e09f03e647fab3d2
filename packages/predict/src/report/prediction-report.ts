import type { Design } from '@sheetwave/design';
import type { Prediction } from '../prediction.ts';
import { beamTable } from './beam-table.ts';
import { couplingTable } from './coupling-table.ts';
import { errorSentences } from './error-sentences.ts';
import { gainTables } from './gain-table.ts';
import { matchTables } from './match-table.ts';
import { nextSteps } from './next-steps.ts';

/** Rows of words and numbers, each cell with its unit. */
export interface ReportTable {
  readonly title: string;
  /** Heads of the columns after the first; as many as each row has cells. */
  readonly columns: readonly string[];
  readonly rows: readonly { readonly what: string; readonly cells: readonly string[] }[];
}

/** A prediction as a builder reads it: the same words on the terminal, in the summary and in a plan. */
export interface PredictionReport {
  /** One line: what was calculated. */
  readonly heading: string;
  readonly tables: readonly ReportTable[];
  /** How far the numbers may be off, and what they rest on. */
  readonly trust: readonly string[];
  /** What the calculation leaves out. */
  readonly leavesOut: readonly string[];
  /** What to do next, most important first. */
  readonly next: readonly string[];
}

/** Puts a prediction into words. Pure: the same prediction of the same design gives the same words. */
export function predictionReport(design: Design, prediction: Prediction): PredictionReport {
  return {
    heading: headingOf(design, prediction),
    tables: [
      ...matchTables(design, prediction),
      ...gainTables(design, prediction),
      ...beamTable(design, prediction),
      ...couplingTable(prediction),
    ],
    trust: errorSentences(prediction),
    leavesOut: prediction.doubts,
    next: nextSteps(design, prediction),
  };
}

function headingOf(design: Design, { feed, quality, ports }: Prediction): string {
  const what =
    feed === 'as-built'
      ? 'the whole antenna as it is built, seen at the coax'
      : `each of ${ports.length} elements with a feed of its own, without the harness`;
  return `${design.name}, revision ${design.revision}: ${ports.length === 1 && feed !== 'as-built' ? 'the element with a feed of its own, without the harness' : what} (${quality} grid)`;
}
