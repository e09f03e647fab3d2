import { CsvError, parse } from 'csv-parse/sync';
import type { Layer, ModeNumbers, PatchOutline, PublishedRow, RowProblem } from './published-row.ts';

/** What a table holds: the rows that can be solved and what is wrong with the others. */
export interface PublishedTable {
  readonly rows: readonly PublishedRow[];
  readonly problems: readonly RowProblem[];
}

type Cells = Readonly<Record<string, string>>;

interface ParsedRecord {
  readonly record: { readonly [column: string]: string | undefined };
  readonly info: { readonly lines: number };
}

/** Thrown inside while a row is read; never leaves this file. */
class BadCell extends Error {
  readonly column: string;
  readonly value: string;
  readonly allowed: string;
  constructor(column: string, value: string, allowed: string) {
    super(column);
    this.column = column;
    this.value = value;
    this.allowed = allowed;
  }
}

/**
 * Reads a table of measured patches. The kind of a table shows in its columns:
 * `patch_width_mm` and `resonant_length_mm` (rectangles), `patch_radius_mm` (discs), `equilateral_side_mm` (triangles), each with
 * `substrate_height_mm` and `relative_permittivity`; or `driven_shape` with `layers_ground_to_driven` (patches on several layers).
 * Other columns may be there or not. Quoted fields, a byte order mark, either line end and spaces around values are read.
 */
export function readTable(text: string): PublishedTable {
  const rows: PublishedRow[] = [];
  const problems: RowProblem[] = [];
  let records: ParsedRecord[];
  try {
    records = parse(text, PARSING) as unknown as ParsedRecord[];
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return {
      rows,
      problems: [{ line: Number(error.lines) || 1, column: 'file', value: error.message, allowed: 'a CSV table' }],
    };
  }
  if (records.length === 0) {
    return {
      rows,
      problems: [{ line: 1, column: 'file', value: 'no rows', allowed: 'column names and one row or more' }],
    };
  }
  for (const { record, info } of records) {
    try {
      rows.push(rowOf(cellsOf(record)));
    } catch (error) {
      if (!(error instanceof BadCell)) throw error;
      const { column, value, allowed } = error;
      problems.push({ line: info.lines, column, value, allowed });
    }
  }
  return { rows, problems };
}

const PARSING = {
  bom: true,
  columns: (names: string[]) => names.map((name) => name.trim().toLowerCase()),
  info: true,
  relax_column_count: true,
  skip_empty_lines: true,
  skip_records_with_empty_values: true,
  trim: true,
};

const cellsOf = (record: ParsedRecord['record']): Cells =>
  Object.fromEntries(Object.entries(record).map(([name, value]) => [name, value ?? '']));

function rowOf(cells: Cells): PublishedRow {
  const caseId = cells.case_id ?? '';
  if (caseId === '') throw new BadCell('case_id', caseId, 'a name of the case');
  const outline = outlineOf(cells);
  return {
    caseId,
    set: /^[A-Za-z]+(?:-[A-Za-z]+)?/.exec(caseId)?.[0] ?? caseId,
    outline,
    layers: layersOf(cells),
    mode: modeOf(cells, outline),
    measuredHz: 1e9 * measured(cells),
    confidence: cells.confidence ?? '',
    memoryStrength: cells.memory_strength ?? '',
    source: cells.source ?? '',
  };
}

const SIZE = { least: 0.01, most: 10_000 };

function outlineOf(cells: Cells): PatchOutline {
  if ('resonant_length_mm' in cells) {
    const lengthMm = numberIn(cells, 'resonant_length_mm', SIZE);
    return { kind: 'rectangle', lengthMm, widthMm: numberIn(cells, 'patch_width_mm', SIZE) };
  }
  if ('patch_radius_mm' in cells) return { kind: 'disc', radiusMm: numberIn(cells, 'patch_radius_mm', SIZE) };
  if ('equilateral_side_mm' in cells) {
    return { kind: 'triangle', sideMm: numberIn(cells, 'equilateral_side_mm', SIZE) };
  }
  return layeredOutline(cells);
}

function layeredOutline(cells: Cells): PatchOutline {
  const shape = (cells.driven_shape ?? '').toLowerCase();
  const radius = /^circle,? radius ([\d.]+) ?mm$/.exec(shape)?.[1];
  if (radius !== undefined) return { kind: 'disc', radiusMm: Number(radius) };
  if (shape !== 'rectangle' && shape !== 'square') {
    const allowed =
      'a table of resonant_length_mm, patch_radius_mm or equilateral_side_mm, or rectangle, square, circle radius N mm';
    throw new BadCell('driven_shape', cells.driven_shape ?? '', allowed);
  }
  if ((cells.upper_shape ?? '') !== '') {
    throw new BadCell(
      'upper_shape',
      cells.upper_shape ?? '',
      'nothing: a stack has two resonances and no single one to compare',
    );
  }
  const lengthMm = numberIn(cells, 'driven_length_mm', SIZE);
  return { kind: 'rectangle', lengthMm, widthMm: numberIn(cells, 'driven_width_mm', SIZE) };
}

function layersOf(cells: Cells): Layer[] {
  if (!('layers_ground_to_driven' in cells)) {
    const permittivity = numberIn(cells, 'relative_permittivity', PERMITTIVITY);
    return [{ heightMm: numberIn(cells, 'substrate_height_mm', SIZE), permittivity }];
  }
  const text = cells.layers_ground_to_driven ?? '';
  const layers = text.split(/ then /i).map((part) => layerOf(part, text));
  const real = layers.filter(({ heightMm }) => heightMm > 0);
  if (real.length === 0) throw new BadCell('layers_ground_to_driven', text, LAYERS);
  return real;
}

const PERMITTIVITY = { least: 1, most: 200 };
const LAYERS = 'layers as "air 0.5 mm then dielectric 1.59 mm er=2.32"';

function layerOf(part: string, text: string): Layer {
  const found = /^(?:(air)|dielectric|foam|\w[\w -]*?) ([\d.]+) ?mm(?: er ?(?:=|about) ?([\d.]+))?/i.exec(part.trim());
  const heightMm = Number(found?.[2]);
  const permittivity = found?.[1] !== undefined ? 1 : Number(found?.[3]);
  if (!(heightMm >= 0) || !(permittivity >= 1)) throw new BadCell('layers_ground_to_driven', text, LAYERS);
  return { heightMm, permittivity };
}

function modeOf(cells: Cells, outline: PatchOutline): ModeNumbers {
  if (outline.kind === 'rectangle') return [1, 0];
  const [m, n] = [cells.mode_m ?? '', cells.mode_n ?? ''];
  if (m !== '' || n !== '') return knownMode(outline, [Number(m), Number(n)], `${m} ${n}`);
  const text = cells.mode ?? '';
  if (text === '') return outline.kind === 'disc' ? [1, 1] : [1, 0];
  const numbers = /^TM ?(\d)(\d)0?$/i.exec(text);
  return knownMode(outline, [Number(numbers?.[1]), Number(numbers?.[2])], text);
}

function knownMode(outline: PatchOutline, [m, n]: ModeNumbers, text: string): ModeNumbers {
  const whole = [m, n].every((each) => Number.isInteger(each) && each >= 0);
  if (outline.kind === 'disc' && !(whole && n === 1 && m >= 1 && m <= 4)) {
    throw new BadCell('mode', text, 'TM11, TM21, TM31 or TM41');
  }
  if (!whole || m + n < 1 || m + n > 4)
    throw new BadCell('mode_m, mode_n', text, 'whole numbers from 0, together 1 to 4');
  return [m, n];
}

const FREQUENCY = { least: 0.01, most: 300 };

function measured(cells: Cells): number {
  const column = 'measured_resonance_ghz' in cells ? 'measured_resonance_ghz' : 'measured_resonant_frequency_ghz';
  return numberIn(cells, column, FREQUENCY);
}

function numberIn(cells: Cells, column: string, { least, most }: { least: number; most: number }): number {
  const text = cells[column] ?? '';
  const value = text === '' ? Number.NaN : Number(text);
  if (!(value >= least && value <= most)) throw new BadCell(column, text, `a number from ${least} to ${most}`);
  return value;
}
