import type { AxisArrays, Kernel, KernelInput, RowOperation } from '../kernel.ts';
import { slabIndex } from '../layout.ts';
import {
  type ComponentName,
  type ComponentUpdate,
  ELECTRIC_UPDATES,
  MAGNETIC_UPDATES,
  psiName,
  type Term,
} from '../update.ts';

/** What one term of one component needs, as element offsets; the row's own offsets are added while running. */
interface TermPlan {
  readonly axis: Term['axis'];
  readonly source: number;
  /** Distance in memory to the neighbour along the axis, signed: back for E, ahead for H. */
  readonly neighbour: number;
  readonly inverse: number;
  readonly b: number;
  readonly c: number;
  /** -1 without an absorbing layer along this axis. */
  readonly psi: number;
}

interface ComponentPlan {
  readonly component: ComponentName;
  readonly isElectric: boolean;
  readonly field: number;
  readonly rows: number;
  readonly terms: readonly [TermPlan, TermPlan];
  /** By row index k * ny + j. */
  readonly operations: ReadonlyMap<number, readonly PlacedOperation[]>;
  readonly probes: ReadonlyMap<number, readonly PlacedProbe[]>;
}

interface PlacedOperation extends RowOperation {
  readonly element: number;
  readonly state: number;
}

interface PlacedProbe {
  readonly element: number;
  readonly index: number;
}

const round = Math.fround;

/**
 * The readable kernel, and the judge of all others: one row at a time, one component at a time, in the order of the
 * description in `update.ts`, every operation rounded to 32 bits.
 */
export function plainKernel(input: KernelInput): Kernel {
  const { layout } = input;
  const memory = new Float32Array(input.buffer, 0, layout.end);
  const addresses = new Uint32Array(input.buffer, 0, layout.end);
  const electric = ELECTRIC_UPDATES.map((update) => planComponent(input, update, true));
  const magnetic = MAGNETIC_UPDATES.map((update) => planComponent(input, update, false));
  const rowKernel = makeRowKernel(input, memory, addresses);
  return {
    name: 'plain',
    advance(steps) {
      if (!(steps >= 1 && steps <= layout.maxBatch)) throw new RangeError(`steps must be 1 to ${layout.maxBatch}.`);
      for (let step = 0; step < steps; step++) {
        halfStep(electric, rowKernel, step);
        halfStep(magnetic, rowKernel, step);
      }
    },
    close() {},
  };

  function runExtras(plan: ComponentPlan, row: number, step: number): void {
    const operations = plan.operations.get(row);
    if (operations) for (const one of operations) applyOperation(memory, input, one, step);
    const probes = plan.probes.get(row);
    if (!probes) return;
    for (const { element, index } of probes) {
      memory[layout.records + step * layout.probeCount + index] = memory[element] as number;
    }
  }

  function halfStep(plans: readonly ComponentPlan[], row: RowKernel, step: number): void {
    const { ny, nz } = layout.shape;
    for (let k = 0; k < nz; k++) {
      for (let j = 0; j < ny; j++) {
        for (const plan of plans) {
          row(plan, j, k);
          runExtras(plan, k * ny + j, step);
        }
      }
    }
  }
}

type RowKernel = (plan: ComponentPlan, j: number, k: number) => void;

function planComponent(input: KernelInput, update: ComponentUpdate, isElectric: boolean): ComponentPlan {
  const { layout } = input;
  const { component } = update;
  const elementOf = ({ i, j, k }: { i: number; j: number; k: number }) =>
    layout.fields[component] + (k * layout.shape.ny + j) * layout.shape.sx + i;
  const operations = input.operations
    .map((one, index) => ({ ...one, element: elementOf(one), state: layout.states + index }))
    .filter((one) => one.component === component);
  const probes = input.probes
    .map((one, index) => ({ ...one, element: elementOf(one), index }))
    .filter((one) => one.component === component);
  return {
    component,
    isElectric,
    field: layout.fields[component],
    rows: layout.rows[component],
    terms: [planTerm(input, update, update.plus), planTerm(input, update, update.minus)],
    operations: byRow(operations, layout.shape.ny),
    probes: byRow(probes, layout.shape.ny),
  };
}

function planTerm({ layout }: KernelInput, { component }: ComponentUpdate, { axis, of }: Term): TermPlan {
  const { sx, ny } = layout.shape;
  const isElectric = component.startsWith('e');
  const arrays: AxisArrays = isElectric ? layout.electric : layout.magnetic;
  const stride = { x: 1, y: sx, z: sx * ny }[axis];
  return {
    axis,
    source: layout.fields[of],
    neighbour: isElectric ? -stride : stride,
    inverse: arrays.inverse[axis],
    b: arrays.b[axis],
    c: arrays.c[axis],
    psi: layout.psi[psiName(component, axis)] ?? -1,
  };
}

function byRow<T extends { readonly j: number; readonly k: number }>(all: readonly T[], ny: number): Map<number, T[]> {
  const rows = new Map<number, T[]>();
  for (const one of all) {
    const index = one.k * ny + one.j;
    rows.set(index, [...(rows.get(index) ?? []), one]);
  }
  return rows;
}

function applyOperation(memory: Float32Array, { layout }: KernelInput, one: PlacedOperation, step: number): void {
  const wave = memory[layout.waves + one.wave * layout.maxBatch + step] as number;
  const state = memory[one.state] as number;
  const driven = round((memory[one.element] as number) + round(round(one.drive) * wave));
  const field = round(driven - round(round(one.back) * state));
  memory[one.element] = field;
  memory[one.state] = round(state + round(round(one.gain) * field));
}

/**
 * Makes the function that updates one row of one component. The two terms are first written to two scratch rows, so that
 * the absorbing layer is a second, separate loop over its part of the scratch row only.
 */
function makeRowKernel({ layout }: KernelInput, memory: Float32Array, addresses: Uint32Array): RowKernel {
  const { sx, ny } = layout.shape;
  const { x: slabX, y: slabY, z: slabZ } = layout.slabs;
  const plus = new Float32Array(sx);
  const minus = new Float32Array(sx);

  function term(plan: TermPlan, base: number, scratch: Float32Array, { j, k }: Place): void {
    const here = plan.source + base;
    // E: here - back; H: ahead - here.
    const first = here + Math.max(0, plan.neighbour);
    const second = here + Math.min(0, plan.neighbour);
    if (plan.axis === 'x') differenceAlongX(memory, scratch, first, second, plan.inverse);
    else differenceAcross(memory, scratch, first, second, memory[plan.inverse + (plan.axis === 'y' ? j : k)] as number);
    if (plan.psi >= 0) absorb(plan, scratch, { j, k });
  }

  function absorb(plan: TermPlan, scratch: Float32Array, { j, k }: Place): void {
    if (plan.axis === 'x') {
      const psi = plan.psi + (k * ny + j) * slabX.width;
      absorbAlongX(memory, scratch, { ...plan, psi }, 0, slabX.lowEnd);
      absorbAlongX(memory, scratch, { ...plan, psi: psi + slabX.lowEnd - slabX.highStart }, slabX.highStart, sx);
      return;
    }
    const inSlab = plan.axis === 'y' ? slabIndex(slabY, j) : slabIndex(slabZ, k);
    if (inSlab < 0) return;
    const position = plan.axis === 'y' ? j : k;
    const row = plan.axis === 'y' ? k * slabY.width + inSlab : inSlab * ny + j;
    const [b, c] = [memory[plan.b + position] as number, memory[plan.c + position] as number];
    absorbAcross(memory, scratch, plan.psi + row * sx, b, c);
  }

  return (plan, j, k) => {
    const base = (k * ny + j) * sx;
    const at = { j, k };
    term(plan.terms[0], base, plus, at);
    term(plan.terms[1], base, minus, at);
    const coefficients = (addresses[plan.rows + k * ny + j] as number) / 4;
    if (plan.isElectric) combineElectric(memory, plus, minus, plan.field + base, coefficients);
    else if (coefficients === 0) combineMagnetic(memory, plus, minus, plan.field + base);
    else combineScaledMagnetic(memory, plus, minus, plan.field + base, coefficients);
  };
}

interface Place {
  readonly j: number;
  readonly k: number;
}

// The loops below stand alone, over arrays handed in, because that is the form which engines compile best.

function differenceAlongX(f: Float32Array, out: Float32Array, first: number, second: number, inverse: number): void {
  for (let i = 0; i < out.length; i++) {
    out[i] = round((f[inverse + i] as number) * round((f[first + i] as number) - (f[second + i] as number)));
  }
}

function differenceAcross(f: Float32Array, out: Float32Array, first: number, second: number, inverse: number): void {
  for (let i = 0; i < out.length; i++) {
    out[i] = round(inverse * round((f[first + i] as number) - (f[second + i] as number)));
  }
}

interface PsiRow {
  readonly psi: number;
  readonly b: number;
  readonly c: number;
}

function absorbAlongX(f: Float32Array, term: Float32Array, { psi, b, c }: PsiRow, from: number, to: number): void {
  for (let i = from; i < to; i++) {
    const t = term[i] as number;
    const kept = round((f[b + i] as number) * (f[psi + i] as number));
    const value = round(kept + round((f[c + i] as number) * t));
    f[psi + i] = value;
    term[i] = round(t + value);
  }
}

function absorbAcross(f: Float32Array, term: Float32Array, psi: number, b: number, c: number): void {
  for (let i = 0; i < term.length; i++) {
    const t = term[i] as number;
    const value = round(round(b * (f[psi + i] as number)) + round(c * t));
    f[psi + i] = value;
    term[i] = round(t + value);
  }
}

function combineElectric(f: Float32Array, plus: Float32Array, minus: Float32Array, field: number, ca: number): void {
  const cb = ca + plus.length;
  for (let i = 0; i < plus.length; i++) {
    const curl = round((plus[i] as number) - (minus[i] as number));
    f[field + i] = round(round((f[ca + i] as number) * (f[field + i] as number)) + round((f[cb + i] as number) * curl));
  }
}

function combineMagnetic(f: Float32Array, plus: Float32Array, minus: Float32Array, field: number): void {
  for (let i = 0; i < plus.length; i++) {
    f[field + i] = round((f[field + i] as number) - round((plus[i] as number) - (minus[i] as number)));
  }
}

function combineScaledMagnetic(
  f: Float32Array,
  plus: Float32Array,
  minus: Float32Array,
  field: number,
  cm: number,
): void {
  for (let i = 0; i < plus.length; i++) {
    const curl = round((plus[i] as number) - (minus[i] as number));
    f[field + i] = round((f[field + i] as number) - round((f[cm + i] as number) * curl));
  }
}
