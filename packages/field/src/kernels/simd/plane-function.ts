import type { KernelInput, Layout } from '../../kernel.ts';
import { MAGNETIC_NAMES } from '../../update.ts';
import type { Code } from './emit/code.ts';
import { FunctionWriter, type Local } from './emit/function-writer.ts';
import { call, i32, leave, max, min, when, whileLoop } from './emit/instructions.ts';
import type { ModuleWriter } from './emit/module-writer.ts';
import { extrasCode } from './extras.ts';
import { rowFunction } from './row-function.ts';
import type { Half, KernelOptions } from './row-terms.ts';

export interface PlaneFunctionRequest {
  readonly input: KernelInput;
  readonly options: KernelOptions;
  readonly ones: number;
  /** See `airRows`. */
  readonly air: readonly number[];
}

/** Indices of the functions of (k, first row, end row, step) that do one half step of some rows of one plane. */
export interface PlaneFunctions {
  readonly electric: number;
  readonly magnetic: number;
  /** E of these rows, and H of the rows and the plane one before them. */
  readonly both: number;
}

/**
 * Adds both plane functions and what they call. Planes and rows outside the grid are left out, so that callers may shift
 * ranges freely.
 */
export function addPlaneFunctions(module: ModuleWriter, request: PlaneFunctionRequest): PlaneFunctions {
  const electric = addPlaneFunction(module, 'electric', request);
  const magnetic = addPlaneFunction(module, 'magnetic', request);
  return { electric, magnetic, both: addBoth(module, { electric, magnetic, rows: stripRows(request.input.layout) }) };
}

/** Bytes of first-level cache that a strip of rows may take, and the rows of fields that it touches. */
const STRIP_BYTES = 16 * 1024;
const STRIP_FIELDS = 12;

const stripRows = ({ shape }: Layout) => Math.max(1, Math.floor(STRIP_BYTES / (4 * STRIP_FIELDS * shape.sx)));

/** Runs through strips of rows, so that H finds in the first-level cache what E has just touched. */
function addBoth(
  module: ModuleWriter,
  { electric, magnetic, rows }: { electric: number; magnetic: number; rows: number },
): number {
  const writer = new FunctionWriter(4);
  const [k, from, to, step] = [0, 1, 2, 3].map((index) => writer.parameter(index)) as [Local, Local, Local, Local];
  const end = writer.local('i32');
  const oneBefore = (local: Local) => i32.sub(local.get, i32.of(1));
  const body = writer.finish(
    whileLoop(i32.lessSigned(from.get, to.get), [
      end.set(min(to.get, i32.add(from.get, i32.of(rows)))),
      call(electric, k.get, from.get, end.get, step.get),
      call(magnetic, oneBefore(k), oneBefore(from), oneBefore(end), step.get),
      from.set(end.get),
    ]),
  );
  return module.add(body);
}

function addPlaneFunction(module: ModuleWriter, half: Half, request: PlaneFunctionRequest): number {
  const { layout } = request.input;
  const writer = new FunctionWriter(4);
  const [k, from, to, step] = [0, 1, 2, 3].map((index) => writer.parameter(index)) as [Local, Local, Local, Local];
  const [first, end, runEnd] = [writer.local('i32'), writer.local('i32'), writer.local('i32')];
  const rows: Rows = { ...request, module, half, k, first, end, runEnd };
  const isOutside = i32.or(
    i32.greaterOrEqualSigned(k.get, i32.of(layout.shape.nz)),
    i32.or(i32.lessSigned(k.get, i32.of(0)), i32.greaterOrEqualSigned(from.get, to.get)),
  );
  const body = writer.finish([
    from.set(max(from.get, i32.of(0))),
    to.set(min(to.get, i32.of(layout.shape.ny))),
    when(isOutside, leave),
    zones(layout).map(({ start, stop, inY }) => [
      first.set(max(from.get, i32.of(start))),
      end.set(min(to.get, i32.of(stop))),
      when(i32.lessSigned(first.get, end.get), eitherPlane(rows, inY)),
    ]),
    extrasCode(request.input, half, { k, from, to, step }),
  ]);
  return module.add(body);
}

interface Rows extends PlaneFunctionRequest {
  readonly module: ModuleWriter;
  readonly half: Half;
  readonly k: Local;
  readonly first: Local;
  readonly end: Local;
  readonly runEnd: Local;
}

/** The rows of a plane by whether they lie in a slab of y. */
function zones({ slabs, shape }: Layout): { start: number; stop: number; inY: boolean }[] {
  const { lowEnd, highStart } = slabs.y;
  return [
    { start: 0, stop: lowEnd, inY: true },
    { start: lowEnd, stop: highStart, inY: false },
    { start: highStart, stop: shape.ny, inY: true },
  ].filter(({ start, stop }) => start < stop);
}

function eitherPlane(rows: Rows, inY: boolean): Code {
  const { lowEnd, highStart, width } = rows.input.layout.slabs.z;
  if (width === 0) return updateRows(rows, { inY, inZ: false });
  const isBetween = i32.and(
    i32.greaterOrEqualSigned(rows.k.get, i32.of(lowEnd)),
    i32.lessSigned(rows.k.get, i32.of(highStart)),
  );
  return when(isBetween, updateRows(rows, { inY, inZ: false }), updateRows(rows, { inY, inZ: true }));
}

interface Slabbed {
  readonly inY: boolean;
  readonly inZ: boolean;
}

function updateRows(rows: Rows, slabbed: Slabbed): Code {
  const { k, first, end, half, input } = rows;
  const variant = (hasCoefficients: boolean) => rowFunctionIndex(rows, slabbed, hasCoefficients);
  if (half === 'electric') return call(variant(true), k.get, first.get, end.get);
  if (!hasMagneticCoefficients(input)) return call(variant(false), k.get, first.get, end.get);
  return whileLoop(i32.lessSigned(first.get, end.get), oneRun(rows, variant(true), variant(false)));
}

/** Updates the longest run of rows from the first that all have magnetic coefficients, or all have none. */
function oneRun({ input, k, first, end, runEnd }: Rows, scaled: number, plain: number): Code {
  const has = (j: Local) => hasCoefficientsAt(input.layout, k, j);
  const isSame = i32.equal(has(runEnd), has(first));
  return [
    runEnd.set(i32.add(first.get, i32.of(1))),
    whileLoop(i32.and(i32.lessSigned(runEnd.get, end.get), isSame), runEnd.increase(1)),
    when(has(first), call(scaled, k.get, first.get, runEnd.get), call(plain, k.get, first.get, runEnd.get)),
    first.set(runEnd.get),
  ];
}

function hasCoefficientsAt({ rows, shape }: Layout, k: Local, j: Local): Code {
  const at = i32.mul(i32.add(i32.mul(k.get, i32.of(shape.ny)), j.get), i32.of(4));
  const [x, y, z] = MAGNETIC_NAMES.map((name) => i32.load(at, 4 * rows[name])) as [Code, Code, Code];
  return i32.notEqual(i32.or(i32.or(x, y), z), i32.of(0));
}

const known = new WeakMap<ModuleWriter, Map<string, number>>();

/** The function for these rows, added to the module when it is first asked for. */
function rowFunctionIndex(rows: Rows, { inY, inZ }: Slabbed, hasCoefficients: boolean): number {
  const { module, half, input, options, ones, air } = rows;
  const functions = known.get(module) ?? new Map<string, number>();
  known.set(module, functions);
  const key = `${half} ${inY} ${inZ} ${hasCoefficients}`;
  const variant = { half, inY, inZ, hasCoefficients };
  const index = functions.get(key) ?? module.add(rowFunction({ layout: input.layout, variant, options, ones, air }));
  functions.set(key, index);
  return index;
}

function hasMagneticCoefficients({ buffer, layout }: KernelInput): boolean {
  const { ny, nz } = layout.shape;
  return MAGNETIC_NAMES.some((name) =>
    new Uint32Array(buffer, 4 * layout.rows[name], ny * nz).some((address) => address !== 0),
  );
}
