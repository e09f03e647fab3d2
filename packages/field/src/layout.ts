import type { AxisArrays, GridShape, Layout, Slab, Slabs } from './kernel.ts';
import {
  type Axis,
  COMPONENT_NAMES,
  type ComponentName,
  ELECTRIC_UPDATES,
  MAGNETIC_UPDATES,
  type PsiName,
  psiName,
} from './update.ts';

/** Depth of the absorbing layer, cells, at the low and high end of each axis; 0 for none. */
export type LayerDepths = Readonly<Record<Axis, { readonly low: number; readonly high: number }>>;

export interface LayoutRequest {
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  readonly layers: LayerDepths;
  /** Elements of the coefficient pool. */
  readonly poolElements: number;
  readonly waveCount: number;
  readonly probeCount: number;
  readonly operationCount: number;
  readonly maxBatch: number;
}

const ALIGN = 16;
const alignUp = (value: number, to: number) => Math.ceil(value / to) * to;

/** Rows are padded to whole cache lines, with at least one element of padding. */
export const rowLength = (nx: number): number => alignUp(nx + 1, ALIGN);

function slabOf(
  depth: { readonly low: number; readonly high: number },
  nodes: number,
  end: number,
  step: number,
): Slab {
  const lowEnd = alignUp(depth.low, step);
  const highStart = depth.high === 0 ? end : Math.floor((nodes - 1 - depth.high) / step) * step;
  if (highStart < lowEnd) throw new RangeError(`The absorbing layers overlap: ${nodes} nodes are too few.`);
  return { lowEnd, highStart, width: lowEnd + end - highStart };
}

/** Hands out aligned offsets one behind the other. */
class Allocator {
  next = 0;
  take(elements: number): number {
    const at = alignUp(this.next, ALIGN);
    this.next = at + elements;
    return at;
  }
}

type Lengths = Readonly<Record<Axis, number>>;

function axisArrays(allocator: Allocator, lengths: Lengths): AxisArrays {
  const each = () => ({
    x: allocator.take(lengths.x),
    y: allocator.take(lengths.y),
    z: allocator.take(lengths.z),
  });
  return { inverse: each(), b: each(), c: each() };
}

function psiArrays(allocator: Allocator, shape: GridShape, slabs: Slabs): Partial<Record<PsiName, number>> {
  const { sx, ny, nz } = shape;
  const elements: Lengths = { x: slabs.x.width * ny * nz, y: sx * slabs.y.width * nz, z: sx * ny * slabs.z.width };
  const psi: Partial<Record<PsiName, number>> = {};
  for (const update of [...ELECTRIC_UPDATES, ...MAGNETIC_UPDATES]) {
    for (const { axis } of [update.plus, update.minus]) {
      if (elements[axis] > 0) psi[psiName(update.component, axis)] = allocator.take(elements[axis]);
    }
  }
  return psi;
}

/** One offset for each field, staggered by a few cache lines so that six streams do not meet in one cache set. */
function fieldArrays(allocator: Allocator, elements: number, guard: number): Record<ComponentName, number> {
  const fields = {} as Record<ComponentName, number>;
  COMPONENT_NAMES.forEach((name, index) => {
    fields[name] = allocator.take(elements + 2 * guard + index * 5 * ALIGN) + guard;
  });
  return fields;
}

/** Where everything of one grid lies in memory. Pure arithmetic: the same request gives the same layout. */
export function planLayout(request: LayoutRequest): Layout {
  const { nx, ny, nz, layers } = request;
  const shape: GridShape = { nx, ny, nz, sx: rowLength(nx) };
  const { sx } = shape;
  const slabs: Slabs = {
    x: slabOf(layers.x, nx, sx, 4),
    y: slabOf(layers.y, ny, ny, 1),
    z: slabOf(layers.z, nz, nz, 1),
  };
  const allocator = new Allocator();
  allocator.take(ALIGN); // so that no row has the address 0
  const guard = alignUp(sx * ny + sx + ALIGN, ALIGN);
  const fields = fieldArrays(allocator, sx * ny * nz, guard);
  const pool = allocator.take(request.poolElements);
  const rows = {} as Record<ComponentName, number>;
  for (const name of COMPONENT_NAMES) rows[name] = allocator.take(ny * nz);
  const lengths: Lengths = { x: sx, y: ny, z: nz };
  const electric = axisArrays(allocator, lengths);
  const magnetic = axisArrays(allocator, lengths);
  const psi = psiArrays(allocator, shape, slabs);
  const waves = allocator.take(request.waveCount * request.maxBatch);
  const records = allocator.take(request.probeCount * request.maxBatch);
  const states = allocator.take(request.operationCount);
  const end = allocator.take(ALIGN);
  return {
    shape,
    slabs,
    fields,
    guard,
    pool,
    poolElements: request.poolElements,
    rows,
    electric,
    magnetic,
    psi,
    waves,
    waveCount: request.waveCount,
    records,
    probeCount: request.probeCount,
    states,
    maxBatch: request.maxBatch,
    end,
  };
}

/** Bytes that a layout needs. */
export const layoutBytes = (layout: Layout): number => 4 * layout.end;

/** Index of an axis position inside its slab, or -1 between the slabs. */
export function slabIndex(slab: Slab, index: number): number {
  if (index < slab.lowEnd) return index;
  return index >= slab.highStart ? index - slab.highStart + slab.lowEnd : -1;
}
