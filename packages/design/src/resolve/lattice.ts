import type { Lattice } from '../design.ts';
import type { Context } from './context.ts';

const MOST_ELEMENTS = 1024;

function pitchMissing(context: Context, key: 'row_pitch' | 'column_pitch', count: number): boolean {
  if (count === 1 || context.file.lattice?.[key] !== undefined) return false;
  context.report.error({
    code: 'missing-field',
    path: ['lattice', key],
    allowed: `needed for ${count} ${key === 'row_pitch' ? 'rows' : 'columns'}`,
    remedy: `give ${key} = "42 mm", the distance between their centres`,
  });
  return true;
}

/** The lattice, 1 x 1 unless the file says otherwise. */
export function resolveLattice(context: Context): Lattice | undefined {
  const { rows = 1, columns = 1, row_pitch, column_pitch, orientation = 'vertical' } = context.file.lattice ?? {};
  if (rows * columns > MOST_ELEMENTS) {
    return context.report.error({
      code: 'out-of-range',
      path: ['lattice'],
      value: `${rows} x ${columns}`,
      allowed: `gives more than ${MOST_ELEMENTS} elements`,
      remedy: 'use fewer rows or columns',
    });
  }
  const missing = [pitchMissing(context, 'row_pitch', rows), pitchMissing(context, 'column_pitch', columns)];
  if (missing.includes(true)) return undefined;
  return {
    rows,
    columns,
    rowPitchMm: rows > 1 ? (row_pitch ?? 0) : 0,
    columnPitchMm: columns > 1 ? (column_pitch ?? 0) : 0,
    orientation,
  };
}
