import { DEFINITIONS, type Definition } from './definitions.ts';
import type { PublishedRow } from './published-row.ts';
import type { RowPrediction } from './solve-row.ts';

/** One row of the answer, as it is printed for programs. Frequencies in GHz, errors in per cent of the measured value. */
export interface RowReport {
  readonly case_id: string;
  readonly set: string;
  readonly confidence: string;
  readonly memory_strength: string;
  readonly measured_ghz: number;
  /** By each definition; null where there is no such frequency. */
  readonly predicted_ghz: Readonly<Record<Definition, number | null>>;
  /** The one that is compared, and its value and error. */
  readonly definition: Definition;
  readonly predicted_ghz_chosen: number;
  readonly error_percent: number;
  readonly error_percent_by_definition: Readonly<Record<Definition, number | null>>;
  readonly closed_form_ghz: number;
  readonly closed_form_error_percent: number;
  readonly quality_factor: number;
  readonly least_reflection_db: number | null;
  readonly probe_from_middle_mm: number;
  readonly seconds: number;
  readonly cells: number;
}

const round = (value: number, digits: number) => Number(value.toFixed(digits));
const ghz = (hz: number) => round(hz / 1e9, 5);

export function reportRow(row: PublishedRow, found: RowPrediction, seconds: number): RowReport {
  const percent = (hz: number) => round(100 * (hz / row.measuredHz - 1), 2);
  const byDefinition = (of: (hz: number) => number) =>
    Object.fromEntries(
      DEFINITIONS.map((name) => {
        const hz = found.resonances[name];
        return [name, hz === undefined ? null : of(hz)];
      }),
    ) as Record<Definition, number | null>;
  const chosenHz = found.resonances[found.chosen] ?? Number.NaN;
  return {
    case_id: row.caseId,
    set: row.set,
    confidence: row.confidence,
    memory_strength: row.memoryStrength,
    measured_ghz: ghz(row.measuredHz),
    predicted_ghz: byDefinition(ghz),
    definition: found.chosen,
    predicted_ghz_chosen: ghz(chosenHz),
    error_percent: percent(chosenHz),
    error_percent_by_definition: byDefinition(percent),
    closed_form_ghz: ghz(found.closedFormHz),
    closed_form_error_percent: percent(found.closedFormHz),
    quality_factor: round(found.quality, 1),
    least_reflection_db: found.dip ? round(20 * Math.log10(found.dip.reflection), 1) : null,
    probe_from_middle_mm: round(found.probe.atMm, 2),
    seconds: round(seconds, 2),
    cells: found.cells,
  };
}

/** Mean of the absolute errors of some rows, per cent; null where no row has one. */
export interface MeanErrors {
  readonly set: string;
  readonly rows: number;
  readonly chosen: number | null;
  readonly closedForm: number | null;
  readonly byDefinition: Readonly<Record<Definition, number | null>>;
}

/** The means of each set, and of all rows together under the name `all`. */
export function meanErrors(rows: readonly RowReport[]): MeanErrors[] {
  const sets = [...new Set(rows.map(({ set }) => set))];
  return [
    ...sets.map((set) =>
      meansOf(
        set,
        rows.filter((row) => row.set === set),
      ),
    ),
    meansOf('all', rows),
  ];
}

function meansOf(set: string, rows: readonly RowReport[]): MeanErrors {
  const mean = (of: (row: RowReport) => number | null) => {
    const values = rows.map(of).filter((value) => value !== null);
    return values.length === 0 ? null : values.reduce((sum, value) => sum + Math.abs(value), 0) / values.length;
  };
  return {
    set,
    rows: rows.length,
    chosen: mean((row) => row.error_percent),
    closedForm: mean((row) => row.closed_form_error_percent),
    byDefinition: Object.fromEntries(
      DEFINITIONS.map((name) => [name, mean((row) => row.error_percent_by_definition[name])]),
    ) as Record<Definition, number | null>,
  };
}

const signed = (value: number | null) =>
  value === null ? '-' : `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(1)}`;
const plain = (value: number | null) => (value === null ? '-' : value.toFixed(2));
const words = (name: string) => name.replaceAll('_', ' ');

export const ROW_TITLES: readonly string[] = [
  'case',
  'measured GHz',
  'predicted GHz',
  'definition',
  'error %',
  'closed form %',
  ...DEFINITIONS.map((name) => `${words(name)} %`),
];

export const rowCells = (row: RowReport): string[] => [
  row.case_id,
  row.measured_ghz.toFixed(3),
  row.predicted_ghz_chosen.toFixed(3),
  words(row.definition),
  signed(row.error_percent),
  signed(row.closed_form_error_percent),
  ...DEFINITIONS.map((name) => signed(row.error_percent_by_definition[name])),
];

export const MEAN_TITLES: readonly string[] = [
  'set',
  'rows',
  'mean error %',
  'closed form %',
  ...DEFINITIONS.map((name) => `${words(name)} %`),
];

export const meanCells = (means: MeanErrors): string[] => [
  means.set,
  String(means.rows),
  plain(means.chosen),
  plain(means.closedForm),
  ...DEFINITIONS.map((name) => plain(means.byDefinition[name])),
];

/** A table for a terminal. */
export function textTable(titles: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = titles.map((title, n) => Math.max(title.length, ...rows.map((row) => (row[n] ?? '').length)));
  const line = (cells: readonly string[]) =>
    cells.map((cell, n) => (n === 0 ? cell.padEnd(widths[n] ?? 0) : cell.padStart(widths[n] ?? 0))).join('  ');
  return [titles, ...rows].map(line).join('\n');
}

/** The same for a document. */
export const markdownTable = (titles: readonly string[], rows: readonly (readonly string[])[]): string =>
  [titles, titles.map((_, n) => (n === 0 ? '---' : '--:')), ...rows]
    .map((cells) => `| ${cells.join(' | ')} |`)
    .join('\n');
