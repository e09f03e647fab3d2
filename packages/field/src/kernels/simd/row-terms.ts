import type { Axis, Layout } from '../../kernel.ts';
import {
  type ComponentName,
  type ComponentUpdate,
  ELECTRIC_UPDATES,
  MAGNETIC_UPDATES,
  psiName,
  type Term,
} from '../../update.ts';
import type { Code } from './emit/code.ts';
import type { FunctionWriter, Local } from './emit/function-writer.ts';
import { f32x4, i32 } from './emit/instructions.ts';

export type Half = 'electric' | 'magnetic';

/** One of the functions that update rows: which half step, in the slabs of which axes, with magnetic coefficients or not. */
export interface RowVariant {
  readonly half: Half;
  readonly inY: boolean;
  readonly inZ: boolean;
  /** Without, they are 1: so in most magnetic rows, and in electric ones in air. */
  readonly hasCoefficients: boolean;
}

export interface KernelOptions {
  /** Fuse multiplications and additions: faster, but results then depend on the host. */
  readonly fusedMultiplyAdd: boolean;
}

export const updatesOf = (half: Half): readonly ComponentUpdate[] =>
  half === 'electric' ? ELECTRIC_UPDATES : MAGNETIC_UPDATES;

/** Bytes of four numbers. */
export const VECTOR = 16;
const bytes = (elements: number) => 4 * elements;

/** The locals of a row function. Pointers are byte offsets: the address of an array is part of each load. */
export interface RowLocals {
  /** Offset of the current element within every field. */
  readonly place: Local;
  /** Offset of the current element within its row. */
  readonly along: Local;
  /** Offset within psi, for the slabs of each axis. */
  readonly psi: Readonly<Record<Axis, Local>>;
  /** Address of the coefficients of each component, in the order of the updates. */
  readonly coefficients: readonly Local[];
  /** The inverse spacing, b and c along each axis; along x loaded for each vector. */
  readonly inverse: Readonly<Record<Axis, Local>>;
  readonly b: Readonly<Record<Axis, Local>>;
  readonly c: Readonly<Record<Axis, Local>>;
  /** The three differenced components here, in the order x, y, z. */
  readonly here: Readonly<Record<Axis, Local>>;
  readonly term: Local;
  readonly stored: Local;
  readonly terms: readonly [Local, Local];
}

export function rowLocals(writer: FunctionWriter): RowLocals {
  const each = (type: 'i32' | 'v128') => ({ x: writer.local(type), y: writer.local(type), z: writer.local(type) });
  return {
    place: writer.local('i32'),
    along: writer.local('i32'),
    psi: each('i32'),
    coefficients: [writer.local('i32'), writer.local('i32'), writer.local('i32')],
    inverse: each('v128'),
    b: each('v128'),
    c: each('v128'),
    here: each('v128'),
    term: writer.local('v128'),
    stored: writer.local('v128'),
    terms: [writer.local('v128'), writer.local('v128')],
  };
}

interface Shifts {
  readonly shift: number;
  readonly psiXShift: number;
}

/** One of the two terms of an update. */
interface WrittenTerm {
  /** Has to run first. */
  readonly before: Code;
  readonly value: Code;
  /** Where the value is nothing but their product. */
  readonly factors?: readonly [Code, Code];
}

/** Writes the update of four cells. */
export class VectorWriter {
  private readonly layout: Layout;
  private readonly locals: RowLocals;
  private readonly variant: RowVariant;
  private readonly inX: boolean;
  private readonly options: KernelOptions;

  constructor(parts: {
    layout: Layout;
    locals: RowLocals;
    variant: RowVariant;
    /** Whether these cells lie in a slab of the x axis. */
    inX: boolean;
    options: KernelOptions;
  }) {
    this.layout = parts.layout;
    this.locals = parts.locals;
    this.variant = parts.variant;
    this.inX = parts.inX;
    this.options = parts.options;
  }

  /** The vector that lies this many bytes ahead of the pointers, and this many ahead of that of psi of the x axis. */
  write(shift: number, psiXShift: number): Code {
    const at = { shift, psiXShift };
    return [this.loadShared(shift), updatesOf(this.variant.half).map((_, index) => this.updateOne(index, at))];
  }

  private loadShared(shift: number): Code {
    const { locals, layout, variant } = this;
    const arrays = layout[variant.half];
    const axes = ['x', 'y', 'z'] as const;
    const differenced = variant.half === 'electric' ? 'h' : 'e';
    const alongX = (array: number) => f32x4.load(locals.along.get, bytes(array) + shift);
    return [
      axes.map((axis) => locals.here[axis].set(this.field(`${differenced}${axis}`, shift))),
      locals.inverse.x.set(alongX(arrays.inverse.x)),
      this.inX ? [locals.b.x.set(alongX(arrays.b.x)), locals.c.x.set(alongX(arrays.c.x))] : [],
    ];
  }

  private updateOne(index: number, at: Shifts): Code {
    const { locals } = this;
    const { shift } = at;
    const update = updatesOf(this.variant.half)[index] as ComponentUpdate;
    const coefficients = (locals.coefficients[index] as Local).get;
    const address = bytes(this.layout.fields[update.component]) + shift;
    const plus = this.term(update, update.plus, { keep: locals.terms[0], ...at });
    const minus = this.term(update, update.minus, { keep: locals.terms[1], ...at });
    const old = f32x4.load(locals.place.get, address);
    const curl = this.subtract(plus.value, minus);
    const next = this.combine(old, curl, coefficients, shift);
    return [plus.before, minus.before, f32x4.store(locals.place.get, next, address)];
  }

  private combine(old: Code, curl: Code, coefficients: Code, shift: number): Code {
    const { half, hasCoefficients } = this.variant;
    if (half === 'electric' && hasCoefficients) {
      const driven = f32x4.mul(f32x4.load(coefficients, bytes(this.layout.shape.sx) + shift), curl);
      return this.multiplyAdd(f32x4.load(coefficients, shift), old, driven);
    }
    const scaled = hasCoefficients ? f32x4.mul(f32x4.load(coefficients, shift), curl) : curl;
    return half === 'electric' ? f32x4.add(old, curl) : f32x4.sub(old, scaled);
  }

  /** One term: what has to run before, and then its value. */
  private term(
    { component }: ComponentUpdate,
    { axis, of }: Term,
    { keep, shift, psiXShift }: Shifts & { keep: Local },
  ): WrittenTerm {
    const { locals } = this;
    const factors = [locals.inverse[axis].get, this.difference(of, axis, shift)] as const;
    const value = f32x4.mul(...factors);
    if (!this.hasPsi(axis)) return { before: [], value, factors };
    const psi = bytes(this.layout.psi[psiName(component, axis)] as number) + (axis === 'x' ? psiXShift : shift);
    const pointer = locals.psi[axis].get;
    const stored = this.multiplyAdd(
      locals.b[axis].get,
      f32x4.load(pointer, psi),
      f32x4.mul(locals.c[axis].get, locals.term.get),
    );
    return {
      before: [
        locals.term.set(value),
        f32x4.store(pointer, locals.stored.tee(stored), psi),
        keep.set(f32x4.add(locals.term.get, locals.stored.get)),
      ],
      value: keep.get,
    };
  }

  private subtract(plus: Code, { value, factors }: WrittenTerm): Code {
    return this.options.fusedMultiplyAdd && factors
      ? f32x4.relaxedNegativeMultiplyAdd(...factors, plus)
      : f32x4.sub(plus, value);
  }

  private hasPsi(axis: Axis): boolean {
    return { x: this.inX, y: this.variant.inY, z: this.variant.inZ }[axis];
  }

  /** E: here - one back. H: one ahead - here. */
  private difference(of: ComponentName, axis: Axis, shift: number): Code {
    const { sx, ny } = this.layout.shape;
    const stride = bytes({ x: 1, y: sx, z: sx * ny }[axis]);
    const here = this.locals.here[of[1] as Axis].get;
    return this.variant.half === 'electric'
      ? f32x4.sub(here, this.field(of, shift - stride))
      : f32x4.sub(this.field(of, shift + stride), here);
  }

  private field(name: ComponentName, shift: number): Code {
    return f32x4.load(this.locals.place.get, bytes(this.layout.fields[name]) + shift);
  }

  private multiplyAdd(a: Code, b: Code, sum: Code): Code {
    return this.options.fusedMultiplyAdd ? f32x4.relaxedMultiplyAdd(a, b, sum) : f32x4.add(f32x4.mul(a, b), sum);
  }
}

/** Bytes of one row of a field. */
export const rowBytes = ({ shape }: Layout): number => bytes(shape.sx);

/** Offset of a row: (k * ny + j) rows. */
export const rowPlace = (layout: Layout, k: Code, j: Code): Code =>
  i32.mul(i32.add(i32.mul(k, i32.of(layout.shape.ny)), j), i32.of(rowBytes(layout)));
