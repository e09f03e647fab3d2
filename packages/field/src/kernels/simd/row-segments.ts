import type { Layout } from '../../kernel.ts';
import { innerSpan, type Span, usedElements } from './air-rows.ts';
import type { Code } from './emit/code.ts';
import type { Local } from './emit/function-writer.ts';
import { doWhile, i32 } from './emit/instructions.ts';
import { type KernelOptions, type RowLocals, type RowVariant, rowBytes, VECTOR, VectorWriter } from './row-terms.ts';

export interface RowToWrite {
  readonly layout: Layout;
  readonly variant: RowVariant;
  readonly options: KernelOptions;
  readonly locals: RowLocals;
  /** A local for the place where a loop ends. */
  readonly rowEnd: Local;
}

/** A part of a row whose vectors are all written by the same code. */
interface Segment extends Span {
  readonly inX: boolean;
  /** Without coefficients, because they are 1. */
  readonly isAir: boolean;
}

/** Code for a row from its start to its last node. The padding is left as it is. */
export function segments(row: RowToWrite, isAir: boolean): Code {
  return [segmentsOf(row.layout, isAir).map((segment) => segmentCode(row, segment)), skipPadding(row)];
}

function segmentsOf(layout: Layout, isAir: boolean): Segment[] {
  const used = usedElements(layout);
  const { from, to } = innerSpan(layout);
  const lowEnd = Math.min(layout.slabs.x.lowEnd, used);
  const highStart = Math.min(layout.slabs.x.highStart, used);
  const middle = { from: lowEnd, to: highStart, inX: false, isAir: false };
  const cut = [
    { ...middle, to: from },
    { from, to, inX: false, isAir },
    { ...middle, from: to },
  ];
  return [
    { from: 0, to: lowEnd, inX: true, isAir: false },
    ...(isAir ? cut : [middle]),
    { from: highStart, to: used, inX: true, isAir: false },
  ].filter((segment) => segment.from < segment.to);
}

/** The pointers that are not set anew for each row go on to the start of the next one. */
function skipPadding({ layout, locals, variant }: RowToWrite): Code {
  const skipped = rowBytes(layout) - 4 * usedElements(layout);
  return [locals.place.increase(skipped), variant.inZ ? locals.psi.z.increase(skipped) : []];
}

/** Vectors in one round of a loop. One in the slabs of x, which are short and whose code is long. */
const unrollOf = ({ inX }: Segment) => (inX ? 1 : 2);

function segmentCode(row: RowToWrite, segment: Segment): Code {
  const { locals, rowEnd } = row;
  const variant = { ...row.variant, hasCoefficients: row.variant.hasCoefficients && !segment.isAir };
  const vectors = new VectorWriter({ ...row, variant, inX: segment.inX });
  const total = (segment.to - segment.from) / 4;
  const unroll = unrollOf(segment);
  const rounds = Math.floor(total / unroll);
  const step = (count: number): Code => [
    Array.from({ length: count }, (_, index) => vectors.write(index * VECTOR)),
    movingPointers(variant, locals, segment.inX).map((pointer) => pointer.increase(count * VECTOR)),
  ];
  const whole = [
    rowEnd.set(i32.add(locals.place.get, i32.of(rounds * unroll * VECTOR))),
    doWhile(step(unroll), i32.lessUnsigned(locals.place.get, rowEnd.get)),
  ];
  const rest = total - rounds * unroll;
  const passed = segment.isAir ? locals.coefficients.map((pointer) => pointer.increase(total * VECTOR)) : [];
  return [rounds > 0 ? whole : [], rest > 0 ? step(rest) : [], passed];
}

/** The pointers that move along the row. */
function movingPointers(variant: RowVariant, locals: RowLocals, inX: boolean): Local[] {
  return [
    locals.place,
    locals.along,
    ...(inX ? [locals.psi.x] : []),
    ...(variant.inY ? [locals.psi.y] : []),
    ...(variant.inZ ? [locals.psi.z] : []),
    ...(variant.hasCoefficients ? locals.coefficients : []),
  ];
}
