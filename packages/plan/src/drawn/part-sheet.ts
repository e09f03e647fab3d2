import { bendLines, type FlatPart, plain } from '@sheetwave/drawings';
import type { Part, PlatePart, Point } from '@sheetwave/geometry';
import { type PartSheet, type PlanTable, table } from '../document.ts';
import { copperTables } from './copper-tables.ts';
import { datumOf } from './datum.ts';
import { holeTable } from './hole-table.ts';
import { outlineTables } from './outline-tables.ts';
import { partFigure } from './part-figure.ts';
import { rodSheet } from './rod-sheet.ts';
import { tubeSheet } from './tube-sheet.ts';

/** The dimensioned drawing of a part that is made; undefined for one that is bought and used as it is. */
export function partSheet(part: Part): PartSheet | undefined {
  switch (part.form) {
    case 'plate':
    case 'board':
      return flatSheet(part);
    case 'rod':
      return rodSheet(part);
    case 'tube':
      return tubeSheet({ ...part, ...part.tube, id: part.id, name: part.name, lengthMm: part.lengthMm });
    case 'printed-spacer':
      return tubeSheet({ ...part, lengthMm: part.heightMm });
    case 'bought':
      return undefined;
  }
}

function flatSheet(part: FlatPart): PartSheet {
  const { outline, id } = part;
  const datum = datumOf(outline);
  const holes = holeTable(part, datum);
  return {
    part: id,
    figure: partFigure(part),
    tables: [
      ...outlineTables(outline, datum, id),
      ...(holes === undefined ? [] : [holes]),
      ...(part.form === 'plate' ? bendTables(part, datum) : copperTables(part, datum)),
    ],
  };
}

function bendTables(part: PlatePart, datum: Point): readonly PlanTable[] {
  const lines = bendLines(part);
  if (lines.length === 0) return [];
  const head = ['bend', 'from', 'to', 'how'];
  const at = ({ x, y }: Point): string => `${plain(x - datum.x)}, ${plain(y - datum.y)}`;
  const rows = lines.map(({ from, to, words }, index) => [String(index + 1), at(from), at(to), words]);
  return [table('Bends: the middle of each, from left and from below', head, rows)];
}
