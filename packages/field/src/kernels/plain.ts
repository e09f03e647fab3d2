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

  function halfStep(plans: readonly ComponentPlan[], row: RowKernel, step: number): void {
    const { ny, nz } = layout.shape;
    for (let k = 0; k < nz; k++) {
      for (let j = 0; j < ny; j++) {
        for (const plan of plans) {
          row(plan, j, k);
          const index = k * ny + j;
          for (const operation of plan.operations.get(index) ?? []) applyOperation(memory, input, operation, step);
          for (const probe of plan.probes.get(index) ?? []) {
            memory[layout.records + step * layout.probeCount + probe.index] = memory[probe.element] as number;
          }
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

  function difference(plan: TermPlan, base: number, scratch: Float32Array, at: Place): void {
    const here = plan.source + base;
    const there = here + plan.neighbour;
    // E: here - back; H: ahead - here.
    const first = plan.neighbour < 0 ? here : there;
    const second = plan.neighbour < 0 ? there : here;
    if (plan.axis === 'x') {
      const inverse = plan.inverse;
      for (let i = 0; i < sx; i++) {
        scratch[i] = round(
          (memory[inverse + i] as number) * round((memory[first + i] as number) - (memory[second + i] as number)),
        );
      }
    } else {
      const inverse = memory[plan.inverse + (plan.axis === 'y' ? at.j : at.k)] as number;
      for (let i = 0; i < sx; i++) {
        scratch[i] = round(inverse * round((memory[first + i] as number) - (memory[second + i] as number)));
      }
    }
    if (plan.psi >= 0) absorb(plan, scratch, at);
  }

  function absorb(plan: TermPlan, scratch: Float32Array, { j, k }: Place): void {
    if (plan.axis === 'x') {
      const psi = plan.psi + (k * ny + j) * slabX.width;
      absorbAlongX(plan, scratch, psi, 0, slabX.lowEnd);
      absorbAlongX(plan, scratch, psi + slabX.lowEnd - slabX.highStart, slabX.highStart, sx);
      return;
    }
    const inSlab = plan.axis === 'y' ? slabIndex(slabY, j) : slabIndex(slabZ, k);
    if (inSlab < 0) return;
    const position = plan.axis === 'y' ? j : k;
    const row = plan.axis === 'y' ? k * slabY.width + inSlab : inSlab * ny + j;
    absorbAcross(
      scratch,
      plan.psi + row * sx,
      memory[plan.b + position] as number,
      memory[plan.c + position] as number,
    );
  }

  function absorbAlongX(plan: TermPlan, scratch: Float32Array, psi: number, from: number, to: number): void {
    for (let i = from; i < to; i++) {
      const term = scratch[i] as number;
      const value = round(
        round((memory[plan.b + i] as number) * (memory[psi + i] as number)) +
          round((memory[plan.c + i] as number) * term),
      );
      memory[psi + i] = value;
      scratch[i] = round(term + value);
    }
  }

  function absorbAcross(scratch: Float32Array, psi: number, b: number, c: number): void {
    for (let i = 0; i < sx; i++) {
      const term = scratch[i] as number;
      const value = round(round(b * (memory[psi + i] as number)) + round(c * term));
      memory[psi + i] = value;
      scratch[i] = round(term + value);
    }
  }

  function combineElectric(field: number, ca: number): void {
    const cb = ca + sx;
    for (let i = 0; i < sx; i++) {
      const curl = round((plus[i] as number) - (minus[i] as number));
      memory[field + i] = round(
        round((memory[ca + i] as number) * (memory[field + i] as number)) + round((memory[cb + i] as number) * curl),
      );
    }
  }

  function combineMagnetic(field: number, cm: number): void {
    for (let i = 0; i < sx; i++) {
      const curl = round((plus[i] as number) - (minus[i] as number));
      const change = cm === 0 ? curl : round((memory[cm + i] as number) * curl);
      memory[field + i] = round((memory[field + i] as number) - change);
    }
  }

  return (plan, j, k) => {
    const base = (k * ny + j) * sx;
    const at = { j, k };
    difference(plan.terms[0], base, plus, at);
    difference(plan.terms[1], base, minus, at);
    const coefficients = (addresses[plan.rows + k * ny + j] as number) / 4;
    if (plan.isElectric) combineElectric(plan.field + base, coefficients);
    else combineMagnetic(plan.field + base, coefficients);
  };
}

interface Place {
  readonly j: number;
  readonly k: number;
}
