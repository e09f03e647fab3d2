import { heightAt, onGrid, type Stretch } from './profile.ts';

/** One slice of the stack's height, as it lies on the bed: the inner face over it, and where nothing is printed. */
export interface Slab {
  readonly from: number;
  readonly to: number;
  readonly face: readonly Stretch[];
  /** Stretches along y where nothing stands on the bed. */
  readonly openings: readonly { readonly from: number; readonly to: number }[];
}

/** Over one rectangle of the bed: height at its two ends along y, both 0 where nothing stands. */
export interface Cell {
  readonly start: number;
  readonly end: number;
}

export interface Cells {
  /** Where cells begin and end along y, ascending. */
  readonly stations: readonly number[];
  /** One row a slab, one cell between two stations. */
  readonly rows: readonly (readonly Cell[])[];
}

/** Stations and heights nearer than this are one: coarser than the grid, far finer than any print. */
const SAME_MM = 3e-3;
/** Each round adds the crossings the round before left; straight faces are done after one or two. */
const ROUNDS = 8;

/**
 * Cuts slabs into cells between common stations, so fine that the faces of neighbouring slabs never cross inside a cell.
 * Throws when the crossings cannot be resolved on the grid.
 */
export function cellsOf(slabs: readonly Slab[]): Cells {
  let stations = distinct(
    slabs.flatMap(({ face, openings }) => [...face, ...openings].flatMap(({ from, to }) => [from, to])),
  );
  for (let round = 0; round < ROUNDS; round++) {
    const rows = merged(slabs.map((slab) => cellRow(slab, stations)));
    const crossings = rows.flatMap((row, k) => crossingsOf(rows[k - 1] ?? [], row, stations));
    if (crossings.length === 0) return { stations, rows };
    stations = [...new Set([...stations, ...crossings])].sort((a, b) => a - b);
  }
  throw new Error('the faces of two slabs cross too often to be told apart');
}

function distinct(values: readonly number[]): readonly number[] {
  const kept: number[] = [];
  for (const value of [...values].sort((a, b) => a - b))
    if (value - (kept.at(-1) ?? -Infinity) > SAME_MM) kept.push(value);
  return kept;
}

function cellRow(slab: Slab, stations: readonly number[]): readonly Cell[] {
  return stations.slice(1).map((to, i) => {
    const from = stations[i] ?? to;
    const middle = (from + to) / 2;
    if (slab.openings.some((o) => o.from < middle && middle < o.to)) return { start: 0, end: 0 };
    return { start: heightAt(slab.face, from, middle), end: heightAt(slab.face, to, middle) };
  });
}

/** Heights over one station that differ by rounding only become one: the highest, so that arms end exactly where they should. */
function merged(rows: readonly (readonly Cell[])[]): readonly (readonly Cell[])[] {
  const count = (rows[0]?.length ?? 0) + 1;
  const below = Array.from({ length: count }, (_, i) =>
    distinct(rows.flatMap((row) => [0 - (row[i - 1]?.end ?? 0), 0 - (row[i]?.start ?? 0)])),
  );
  const level = (i: number, height: number): number =>
    0 - (below[i]?.filter((candidate) => candidate <= -height).at(-1) ?? -height);
  return rows.map((row) => row.map(({ start, end }, i) => ({ start: level(i, start), end: level(i + 1, end) })));
}

function crossingsOf(before: readonly Cell[], here: readonly Cell[], stations: readonly number[]): readonly number[] {
  return before.flatMap((cell, i) => {
    const [from = 0, to = 0] = stations.slice(i, i + 2);
    const atStart = cell.start - (here[i]?.start ?? 0);
    const atEnd = cell.end - (here[i]?.end ?? 0);
    if (atStart * atEnd >= 0) return [];
    return [onGrid(from + ((to - from) * atStart) / (atStart - atEnd))];
  });
}
