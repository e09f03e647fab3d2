/**
 * The contract of the kernels: where everything lies in one memory, and what one batch of steps does to it.
 *
 * Invariants that every kernel may rely on
 * 1. All numbers lie in one buffer. Offsets of the layout count 32-bit elements from its start; arrays start at
 *    multiples of 16 elements.
 * 2. Element (i, j, k) of a field lies at `fields[name] + (k * ny + j) * sx + i`; sx is a multiple of 16 and above nx.
 *    `guard` elements before and after each field may be read and are never written.
 * 3. Coefficients are 0 for every edge that lies in metal, on a closed outer wall or in the padding of a row, so the loop
 *    over a row runs from 0 to sx without a branch. The high walls in x, y and z are always closed.
 * 4. A low wall is closed (coefficients 0) or open (a plane of magnetic symmetry: the inverse spacing there is that of a
 *    half cell, and the field one back is padding or guard, which stays at its small initial value).
 * 5. Psi exists only in the slabs of its axis. Slabs in x start at multiples of 4 and have widths that are multiples of
 *    4; where a slab is wider than its layer, b and c are 0.
 * 6. Row operations touch one element of an electric row. They come sorted by plane, then row, and run right after the
 *    update of that row of that component and before anything reads it. Probes of E read after the row's operations,
 *    probes of H after the row's update.
 * 7. Between two batches all fields are at the same step, so that whoever samples them reads the memory then.
 *
 * Order within step n: E of all rows (with operations and E probes), then H of all rows (with H probes). A kernel may
 * reorder rows and steps in any way that gives the same bits.
 */
import type { Axis, ComponentName, ElectricName, MagneticName, PsiName } from './update.ts';

/** Numbers of nodes, and the padded length of a row. */
export interface GridShape {
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  /** Row length in elements: a multiple of 16, at least nx + 1. */
  readonly sx: number;
}

/** Indices of the two slabs of one axis: [0, lowEnd) and [highStart, end of the axis); x ends at sx. */
export interface Slab {
  readonly lowEnd: number;
  readonly highStart: number;
  /** lowEnd + (end - highStart): extent of psi along this axis. */
  readonly width: number;
}

/**
 * Psi of the axis x at (i, j, k): `(k * ny + j) * width + (i < lowEnd ? i : i - highStart + lowEnd)`;
 * y: `(k * width + jj) * sx + i` with jj made from j in the same way; z: `(kk * ny + j) * sx + i`.
 */
export type Slabs = Readonly<Record<Axis, Slab>>;

/** 1-D arrays along each axis (x: sx elements, y: ny, z: nz), once for the electric and once for the magnetic half step. */
export interface AxisArrays {
  /** c dt / (spacing * kappa): dual spacing in the electric half step, primary in the magnetic. */
  readonly inverse: Readonly<Record<Axis, number>>;
  /** Factor of the old psi. */
  readonly b: Readonly<Record<Axis, number>>;
  /** Factor of the new term in psi. */
  readonly c: Readonly<Record<Axis, number>>;
}

/**
 * One lumped thing on one electric element, run as
 *     E     = E + drive * wave[port][step] - back * state
 *     state = state + gain * E
 * each product and each sum rounded to 32 bits, in this order. Sources have gain 0, inductors have drive 0.
 */
export interface RowOperation {
  readonly component: ElectricName;
  readonly i: number;
  readonly j: number;
  readonly k: number;
  readonly wave: number;
  readonly drive: number;
  readonly back: number;
  readonly gain: number;
}

/** One element whose value is recorded at each step. */
export interface Probe {
  readonly component: ComponentName;
  readonly i: number;
  readonly j: number;
  readonly k: number;
}

/** Offsets in 32-bit elements. */
export interface Layout {
  readonly shape: GridShape;
  readonly slabs: Slabs;
  readonly fields: Readonly<Record<ComponentName, number>>;
  readonly guard: number;
  /** Coefficient rows: an electric row is sx times ca, then sx times cb; a magnetic row is sx times cm. */
  readonly pool: number;
  readonly poolElements: number;
  /**
   * Tables of ny * nz unsigned integers, index k * ny + j: BYTE address of the coefficient row of that row. Of a magnetic
   * component 0 means that cm is 1 throughout.
   */
  readonly rows: Readonly<Record<ComponentName, number>>;
  readonly electric: AxisArrays;
  readonly magnetic: AxisArrays;
  readonly psi: Readonly<Partial<Record<PsiName, number>>>;
  /** waves[w * maxBatch + n]: value of waveform w at step n of the batch. */
  readonly waves: number;
  readonly waveCount: number;
  /** records[n * probeCount + p]: value of probe p after step n of the batch. */
  readonly records: number;
  readonly probeCount: number;
  /** One number for each row operation. */
  readonly states: number;
  readonly maxBatch: number;
  /** Elements in all; nothing of this layout lies behind. */
  readonly end: number;
}

/** All that a kernel needs, as plain data over one memory. */
export interface KernelInput {
  readonly buffer: ArrayBufferLike;
  readonly layout: Layout;
  readonly operations: readonly RowOperation[];
  readonly probes: readonly Probe[];
}

/** Runs batches of steps over the memory it was made for. */
export interface Kernel {
  readonly name: string;
  /**
   * Runs `steps` whole steps (1 to `maxBatch`), reading waves and writing records from their start. Returns, or resolves,
   * when all fields are at the same step.
   */
  advance(steps: number): void | Promise<void>;
  /** Ends workers. The memory stays. */
  close(): void;
}

export type KernelMaker = (input: KernelInput) => Kernel | Promise<Kernel>;

/** Allocates the memory of a layout: kernels in WebAssembly bring their own. Zero-filled, `bytes` long at least. */
export type MemoryMaker = (bytes: number) => ArrayBufferLike;

export type { Axis, ComponentName, ElectricName, MagneticName, PsiName };
