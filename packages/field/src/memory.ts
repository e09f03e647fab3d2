import type { KernelInput, Layout, MemoryMaker, Probe, RowOperation } from './kernel.ts';
import { type LayerDepths, planLayout, rowLength } from './layout.ts';
import { RowDictionary } from './row-dictionary.ts';
import {
  AXES,
  type Axis,
  COMPONENT_NAMES,
  type ComponentName,
  ELECTRIC_NAMES,
  type ElectricName,
  MAGNETIC_NAMES,
  type MagneticName,
} from './update.ts';

/** 1-D numbers of one half step along one axis, one for each node (electric) or cell (magnetic). */
export interface AxisNumbers {
  /** c dt / (spacing * kappa). */
  readonly inverse: ArrayLike<number>;
  readonly b: ArrayLike<number>;
  readonly c: ArrayLike<number>;
}

export type HalfStepNumbers = Readonly<Record<Axis, AxisNumbers>>;

/** Writes the coefficients of one row; all entries are 0 before the call. */
export interface CoefficientRows {
  electric(component: ElectricName, place: RowPlace, row: ElectricRow): void;
  /** Returns false where cm is 1 throughout; the row is then not read. Entries are 1 before the call. */
  magnetic(component: MagneticName, place: RowPlace, cm: Float32Array): boolean;
}

export interface RowPlace {
  readonly j: number;
  readonly k: number;
}

/** Views of one row: index i is the element i of the row. */
export interface ElectricRow {
  readonly ca: Float32Array;
  readonly cb: Float32Array;
}

export interface MemoryRequest {
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  readonly layers: LayerDepths;
  readonly coefficients: CoefficientRows;
  readonly electric: HalfStepNumbers;
  readonly magnetic: HalfStepNumbers;
  readonly operations: readonly RowOperation[];
  readonly probes: readonly Probe[];
  readonly waveCount: number;
  readonly maxBatch: number;
  readonly allocate?: MemoryMaker;
}

/** Lays out and fills the memory of one grid: what a kernel is made for. Fields start at the small noise of `fillNoise`. */
export function buildMemory(request: MemoryRequest): KernelInput {
  const { nx, ny, nz } = request;
  const dictionary = new RowDictionary();
  const rowIds = collectRows(request, dictionary);
  const layout = planLayout({
    nx,
    ny,
    nz,
    layers: request.layers,
    poolElements: dictionary.elements,
    waveCount: request.waveCount,
    probeCount: request.probes.length,
    operationCount: request.operations.length,
    maxBatch: request.maxBatch,
  });
  const allocate = request.allocate ?? ((bytes: number) => new ArrayBuffer(bytes));
  const buffer = allocate(4 * layout.end);
  const memory = new Float32Array(buffer, 0, layout.end);
  dictionary.write(memory, layout.pool);
  writeRowTables(buffer, { layout, rowIds, dictionary });
  writeAxisArrays(memory, layout, request);
  fillNoise(memory, layout);
  return { buffer, layout, operations: sortedOperations(request.operations), probes: request.probes };
}

/** -1 stands for a magnetic row of ones. */
type RowIds = Readonly<Record<ComponentName, Int32Array>>;

function collectRows({ nx, ny, nz, coefficients }: MemoryRequest, dictionary: RowDictionary): RowIds {
  const sx = rowLength(nx);
  const ids = {} as Record<ComponentName, Int32Array>;
  for (const name of COMPONENT_NAMES) ids[name] = new Int32Array(ny * nz);
  const row = new Float32Array(2 * sx);
  const electricRow: ElectricRow = { ca: row.subarray(0, sx), cb: row.subarray(sx) };
  const cm = new Float32Array(sx);
  for (let k = 0; k < nz; k++) {
    for (let j = 0; j < ny; j++) {
      for (const name of ELECTRIC_NAMES) {
        row.fill(0);
        coefficients.electric(name, { j, k }, electricRow);
        ids[name][k * ny + j] = dictionary.add(row);
      }
      for (const name of MAGNETIC_NAMES) {
        cm.fill(1);
        ids[name][k * ny + j] = coefficients.magnetic(name, { j, k }, cm) ? dictionary.add(cm) : -1;
      }
    }
  }
  return ids;
}

function writeRowTables(
  buffer: ArrayBufferLike,
  { layout, rowIds, dictionary }: { layout: Layout; rowIds: RowIds; dictionary: RowDictionary },
): void {
  const words = new Uint32Array(buffer, 0, layout.end);
  for (const name of COMPONENT_NAMES) {
    rowIds[name].forEach((id, index) => {
      words[layout.rows[name] + index] = id < 0 ? 0 : 4 * (layout.pool + dictionary.start(id));
    });
  }
}

function writeAxisArrays(memory: Float32Array, layout: Layout, request: MemoryRequest): void {
  for (const half of ['electric', 'magnetic'] as const) {
    for (const axis of AXES) {
      memory.set(Float32Array.from(request[half][axis].inverse), layout[half].inverse[axis]);
      memory.set(Float32Array.from(request[half][axis].b), layout[half].b[axis]);
      memory.set(Float32Array.from(request[half][axis].c), layout[half].c[axis]);
    }
  }
}

const NOISE = 1e-20;

/**
 * Fills the fields with +-1e-20, 200 dB below anything of interest. From zero, the front of a pulse would run through
 * numbers too small for the normal 32-bit range, which processors handle up to a hundred times slower.
 */
export function fillNoise(memory: Float32Array, layout: Layout): void {
  const { sx, ny, nz } = layout.shape;
  for (const name of COMPONENT_NAMES) {
    const from = layout.fields[name];
    for (let n = 0; n < sx * ny * nz; n++) memory[from + n] = (n * 2654435761) & 0x10000 ? NOISE : -NOISE;
  }
}

function sortedOperations(operations: readonly RowOperation[]): RowOperation[] {
  return [...operations].sort((a, b) => a.k - b.k || a.j - b.j || order(a) - order(b) || a.i - b.i);
}

const order = ({ component }: RowOperation) => ELECTRIC_NAMES.indexOf(component);
