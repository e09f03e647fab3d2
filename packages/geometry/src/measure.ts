import type { Assembly, Element, Part } from './assembly.ts';
import { bendMeasures, foldMeasures } from './measure/bend-measures.ts';
import { plateMeasures } from './measure/plate-measures.ts';
import { rodMeasures, spacerMeasures, tubeMeasures } from './measure/rod-measures.ts';
import { stackMeasures } from './measure/stack-measures.ts';

/** One reading of a caliper on a finished part or on the finished antenna. */
export interface Measurement {
  /** Id of the part, or `antenna`. */
  readonly part: string;
  /** `width`, `fixing hole diameter`, `fixing hole 1 from left edge`, `underside over reflector` ... */
  readonly what: string;
  readonly valueMm: number;
  /** How many places read this value: holes of one size, pieces at one height; 1 for what is measured once. */
  readonly count: number;
}

/**
 * What a caliper would read on every part, and on the antenna: read from outlines, corners and placements, never from the design, so
 * that it can be held against the design. Hole centres are from the left and bottom edges of their part, heights from the front face of
 * the reflector; all mm.
 */
export function measure(assembly: Assembly): Measurement[] {
  return [
    ...assembly.parts.flatMap(partMeasures),
    ...foldMeasures(assembly),
    ...stackMeasures(assembly),
    ...pitchMeasures(assembly.elements),
  ];
}

function partMeasures(part: Part): Measurement[] {
  switch (part.form) {
    case 'plate':
      return [...plateMeasures(part), ...bendMeasures(part)];
    case 'board':
      return plateMeasures(part);
    case 'rod':
      return rodMeasures(part);
    case 'tube':
      return tubeMeasures(part);
    case 'printed-spacer':
      return spacerMeasures(part);
    case 'bought':
      return part.lengthMm === undefined ? [] : [{ part: part.id, what: 'length', valueMm: part.lengthMm, count: 1 }];
  }
}

/** Distances between neighbouring elements; one reading for each value there is, so that an uneven lattice shows. */
function pitchMeasures(elements: readonly Element[]): Measurement[] {
  const at = new Map(elements.map((element) => [`${element.row},${element.column}`, element]));
  const readings = new Map<string, Measurement>();
  const read = (what: string, valueMm: number): void => {
    const key = `${what} ${valueMm.toFixed(6)}`;
    readings.set(key, { part: 'antenna', what, valueMm, count: (readings.get(key)?.count ?? 0) + 1 });
  };
  for (const { row, column, centre } of elements) {
    const right = at.get(`${row},${column + 1}`)?.centre;
    const above = at.get(`${row + 1},${column}`)?.centre;
    if (right !== undefined) read('pitch between columns', Math.hypot(right.x - centre.x, right.y - centre.y));
    if (above !== undefined) read('pitch between rows', Math.hypot(above.x - centre.x, above.y - centre.y));
  }
  return [...readings.values()];
}
