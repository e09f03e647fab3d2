import type { HarnessLevel, Lattice } from '../design.ts';

type Joins = HarnessLevel['joins'];
/** `joins` of each level as written, from the coax outward. */
export type WrittenJoins = readonly (Joins | undefined)[];

/** How many times a lattice can be halved each way; not whole when a count is no power of two. */
export function halvings(lattice: Lattice): Readonly<Record<Joins, number>> {
  return { rows: Math.log2(lattice.rows), columns: Math.log2(lattice.columns) };
}

function other(axis: Joins): Joins {
  return axis === 'rows' ? 'columns' : 'rows';
}

/**
 * The axis each level joins, from the coax outward. Levels that do not say alternate from the elements inward, beginning across the
 * electric field (columns for vertical orientation), as long as that axis has anything left to join.
 * Undefined when what is written joins an axis more often than it can be halved.
 */
export function fillJoins(written: WrittenJoins, lattice: Lattice): readonly Joins[] | undefined {
  const left = { ...halvings(lattice) };
  for (const axis of written) if (axis !== undefined) left[axis] -= 1;
  if (left.rows < 0 || left.columns < 0) return undefined;
  let wanted: Joins = lattice.orientation === 'vertical' ? 'columns' : 'rows';
  const filled = [...written].reverse().map((axis) => {
    const chosen = axis ?? (left[wanted] > 0 ? wanted : other(wanted));
    if (axis === undefined) left[chosen] -= 1;
    wanted = other(chosen);
    return chosen;
  });
  return left.rows === 0 && left.columns === 0 ? filled.reverse() : undefined;
}
