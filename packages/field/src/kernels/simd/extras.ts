import type { KernelInput, Layout, Probe, RowOperation } from '../../kernel.ts';
import type { Code } from './emit/code.ts';
import type { Local } from './emit/function-writer.ts';
import { f32, i32, when } from './emit/instructions.ts';
import type { Half } from './row-terms.ts';

/** The ends of the rows that were just updated, and the step of the batch. */
export interface UpdatedRows {
  readonly k: Local;
  readonly from: Local;
  readonly to: Local;
  readonly step: Local;
}

interface PlacedCode {
  readonly j: number;
  readonly k: number;
  readonly code: Code;
}

/**
 * What has to be done after rows of a plane were updated: the operations on single elements, then the probes. Written out
 * one by one, because a grid has few of them and its planes mostly none.
 */
export function extrasCode(input: KernelInput, half: Half, rows: UpdatedRows): Code {
  const at = i32.mul(rows.step.get, i32.of(4));
  const isOfHalf = ({ component }: Probe | RowOperation) => component.startsWith(half === 'electric' ? 'e' : 'h');
  const placed: PlacedCode[] = [
    ...input.operations
      .map((one, index) => ({ j: one.j, k: one.k, code: operationCode(input.layout, one, { index, at }), one }))
      .filter(({ one }) => isOfHalf(one)),
    ...input.probes
      .map((one, index) => ({ j: one.j, k: one.k, code: probeCode(input.layout, one, { index, rows }), one }))
      .filter(({ one }) => isOfHalf(one)),
  ];
  return choosePlane(
    [...groupBy(placed, ({ k }) => k)].sort(([a], [b]) => a - b),
    rows,
  );
}

type Plane = readonly [k: number, placed: readonly PlacedCode[]];

/** A binary search written as nested conditions. */
function choosePlane(planes: readonly Plane[], rows: UpdatedRows): Code {
  const [first] = planes;
  if (first === undefined) return [];
  if (planes.length === 1) return when(i32.equal(rows.k.get, i32.of(first[0])), rowsCode(first[1], rows));
  const middle = planes.length >> 1;
  const pivot = (planes[middle] as Plane)[0];
  const [low, high] = [planes.slice(0, middle), planes.slice(middle)];
  return when(i32.lessSigned(rows.k.get, i32.of(pivot)), choosePlane(low, rows), choosePlane(high, rows));
}

function rowsCode(placed: readonly PlacedCode[], { from, to }: UpdatedRows): Code {
  return [...groupBy(placed, ({ j }) => j)].map(([j, all]) => {
    const wasUpdated = i32.and(i32.lessOrEqualSigned(from.get, i32.of(j)), i32.greaterSigned(to.get, i32.of(j)));
    return when(
      wasUpdated,
      all.map(({ code }) => code),
    );
  });
}

/** See `RowOperation` for the formula. */
function operationCode(layout: Layout, one: RowOperation, { index, at }: { index: number; at: Code }): Code {
  const zero = i32.of(0);
  const field = elementAddress(layout, one);
  const state = 4 * (layout.states + index);
  const wave = f32.load(at, 4 * (layout.waves + one.wave * layout.maxBatch));
  const driven = f32.add(f32.load(zero, field), f32.mul(f32.of(one.drive), wave));
  const next = f32.sub(driven, f32.mul(f32.of(one.back), f32.load(zero, state)));
  const gained = f32.add(f32.load(zero, state), f32.mul(f32.of(one.gain), f32.load(zero, field)));
  return [f32.store(zero, next, field), f32.store(zero, gained, state)];
}

function probeCode(layout: Layout, one: Probe, { index, rows }: { index: number; rows: UpdatedRows }): Code {
  const record = i32.mul(rows.step.get, i32.of(4 * layout.probeCount));
  return f32.store(record, f32.load(i32.of(0), elementAddress(layout, one)), 4 * (layout.records + index));
}

const elementAddress = ({ fields, shape }: Layout, { component, i, j, k }: Probe): number =>
  4 * (fields[component] + (k * shape.ny + j) * shape.sx + i);

function groupBy<T>(items: readonly T[], keyOf: (item: T) => number): Map<number, T[]> {
  const groups = new Map<number, T[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return groups;
}
