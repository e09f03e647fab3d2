import type { Axis, Layout } from '../../kernel.ts';
import type { Code } from './emit/code.ts';
import { type FunctionBody, FunctionWriter, type Local } from './emit/function-writer.ts';
import { doWhile, f32x4, i32, when } from './emit/instructions.ts';
import { type RowToWrite, segments } from './row-segments.ts';
import { type KernelOptions, type RowVariant, rowBytes, rowLocals, rowPlace, updatesOf } from './row-terms.ts';

export interface RowFunctionRequest {
  readonly layout: Layout;
  readonly variant: RowVariant;
  readonly options: KernelOptions;
  /** Byte address of a row of ones, which stands in where a magnetic row names no coefficients. */
  readonly ones: number;
  /** Addresses of coefficient rows that are 1 within. */
  readonly air: readonly number[];
}

/**
 * A function of (k, first row, end row) that updates these rows of plane k, one or more, all in the slabs of its variant.
 */
export function rowFunction(request: RowFunctionRequest): FunctionBody {
  const { layout, variant } = request;
  const writer = new FunctionWriter(3);
  const [k, j, end] = [writer.parameter(0), writer.parameter(1), writer.parameter(2)];
  const locals = rowLocals(writer);
  const rowEnd = writer.local('i32');
  const row: RowParts = { ...request, locals, k, j, rowEnd };
  const all = segments(row, false);
  const nextRow = [j.tee(i32.add(j.get, i32.of(1))), end.get];
  return writer.finish([
    locals.place.set(rowPlace(layout, k.get, j.get)),
    axisNumbers(row, 'z', k),
    variant.inZ ? locals.psi.z.set(rowPlace(layout, slabPosition(layout, 'z', k), j.get)) : [],
    doWhile(
      [
        axisNumbers(row, 'y', j),
        variant.inY ? locals.psi.y.set(psiYPlace(layout, k, j)) : [],
        hasXSlab(layout) ? locals.psi.x.set(psiXPlace(layout, k, j)) : [],
        coefficientRows(row),
        locals.along.set(i32.of(0)),
        hasAir(request) ? when(isInAir(row), segments(row, true), all) : all,
      ],
      i32.lessSigned(nextRow[0] as Code, nextRow[1] as Code),
    ),
  ]);
}

interface RowParts extends RowFunctionRequest, RowToWrite {
  readonly k: Local;
  readonly j: Local;
}

const hasAir = ({ air, variant }: RowFunctionRequest) => air.length > 0 && variant.half === 'electric';

/** Whether all three components have rows that are 1 within. */
function isInAir({ air, locals }: RowParts): Code {
  const isOneOf = (pointer: Local) => air.map((address) => i32.equal(pointer.get, i32.of(address))).reduce(i32.or);
  return locals.coefficients.map(isOneOf).reduce(i32.and);
}

const hasXSlab = ({ slabs }: Layout) => slabs.x.width > 0;

/** The inverse spacing, and in a slab b and c, at one position of y or z. */
function axisNumbers({ layout, variant, locals }: RowParts, axis: 'y' | 'z', position: Local): Code {
  const arrays = layout[variant.half];
  const at = i32.mul(position.get, i32.of(4));
  const load = (into: Local, array: number) => into.set(f32x4.loadSplat(at, 4 * array));
  const inSlab = axis === 'y' ? variant.inY : variant.inZ;
  return [
    load(locals.inverse[axis], arrays.inverse[axis]),
    inSlab ? [load(locals.b[axis], arrays.b[axis]), load(locals.c[axis], arrays.c[axis])] : [],
  ];
}

/** Index inside the slab of a position that lies in it. */
function slabPosition({ slabs }: Layout, axis: Axis, position: Local): Code {
  const { lowEnd, highStart } = slabs[axis];
  const high = i32.sub(position.get, i32.of(highStart - lowEnd));
  return i32.select(position.get, high, i32.lessSigned(position.get, i32.of(lowEnd)));
}

const psiYPlace = (layout: Layout, k: Local, j: Local): Code =>
  i32.mul(
    i32.add(i32.mul(k.get, i32.of(layout.slabs.y.width)), slabPosition(layout, 'y', j)),
    i32.of(rowBytes(layout)),
  );

const psiXPlace = (layout: Layout, k: Local, j: Local): Code =>
  i32.mul(i32.add(i32.mul(k.get, i32.of(layout.shape.ny)), j.get), i32.of(4 * layout.slabs.x.width));

/** The addresses of the coefficient rows of this row. */
function coefficientRows({ layout, variant, locals, k, j, ones }: RowParts): Code {
  if (!variant.hasCoefficients) return [];
  const at = i32.mul(i32.add(i32.mul(k.get, i32.of(layout.shape.ny)), j.get), i32.of(4));
  return updatesOf(variant.half).map(({ component }, index) => {
    const pointer = locals.coefficients[index] as Local;
    const load = pointer.set(i32.load(at, 4 * layout.rows[component]));
    if (variant.half === 'electric') return load;
    return [load, pointer.set(i32.select(pointer.get, i32.of(ones), pointer.get))];
  });
}
