import {
  type AxisNumbers,
  buildMemory,
  type ComponentName,
  type ElectricName,
  type HalfStepNumbers,
  type KernelInput,
  type MemoryMaker,
  type MemoryRequest,
  type Probe,
  type RowOperation,
} from '@sheetwave/field';
import fc from 'fast-check';

/** What a random grid is made of; everything else follows from the seed. */
export interface GridChoice {
  readonly seed: number;
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  /** Depths of the absorbing layers: x low, x high, y low, ... */
  readonly depths: readonly number[];
  /** Low walls of x, y, z that are open. */
  readonly open: readonly boolean[];
  readonly operationCount: number;
  readonly probeCount: number;
  /** Parts of a hundred of the magnetic rows that have coefficients, as along slanted edges and thin wires. */
  readonly conformalPercent: number;
  /** Parts of a hundred of the blocks that are metal or a lossy material; the rest is air. */
  readonly filledPercent: number;
}

export const MAX_BATCH = 24;

export const gridChoices: fc.Arbitrary<GridChoice> = fc.record({
  seed: fc.integer({ min: 1, max: 2 ** 31 - 1 }),
  nx: fc.integer({ min: 13, max: 40 }),
  ny: fc.integer({ min: 12, max: 26 }),
  nz: fc.integer({ min: 12, max: 22 }),
  depths: fc.array(fc.constantFrom(0, 2, 3, 4), { minLength: 6, maxLength: 6 }),
  open: fc.array(fc.boolean(), { minLength: 3, maxLength: 3 }),
  operationCount: fc.integer({ min: 0, max: 5 }),
  probeCount: fc.integer({ min: 0, max: 8 }),
  conformalPercent: fc.constantFrom(0, 10, 60),
  filledPercent: fc.constantFrom(0, 10, 50),
});

/** Numbers in [0, 1), the same for the same seed (Marsaglia's xorshift of 32 bits). */
function numbersFrom(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

const AXIS_INDEX = { x: 0, y: 1, z: 2 } as const;

/** Memory of the random grid, with fields that are not small anywhere a field may be. */
export function randomGrid(choice: GridChoice, allocate?: MemoryMaker): KernelInput {
  const input = buildMemory({ ...memoryRequest(choice), ...(allocate ? { allocate } : {}) });
  fillFields(choice, input);
  fillWaves(choice, input);
  return input;
}

function memoryRequest(choice: GridChoice): MemoryRequest {
  const { nx, ny, nz, depths } = choice;
  const random = numbersFrom(choice.seed);
  const depth = (index: number) => ({ low: depths[2 * index] ?? 0, high: depths[2 * index + 1] ?? 0 });
  const place = (name: ComponentName): Probe => ({
    component: name,
    i: Math.floor(random() * nx),
    j: Math.floor(random() * ny),
    k: Math.floor(random() * nz),
  });
  const electricName = () => pick<ElectricName>(random, ['ex', 'ey', 'ez']);
  const operation = (): RowOperation => ({
    ...place(electricName()),
    component: electricName(),
    wave: Math.floor(random() * 2),
    drive: random() - 0.5,
    back: random() * 0.2,
    gain: random() < 0.5 ? 0 : random() * 0.3,
  });
  const probe = () => place(pick<ComponentName>(random, ['ex', 'ey', 'ez', 'hx', 'hy', 'hz']));
  return {
    nx,
    ny,
    nz,
    layers: { x: depth(0), y: depth(1), z: depth(2) },
    electric: halfStep(choice, random, 0),
    magnetic: halfStep(choice, random, 1),
    operations: Array.from({ length: choice.operationCount }, operation),
    probes: Array.from({ length: choice.probeCount }, probe),
    waveCount: 2,
    maxBatch: MAX_BATCH,
    coefficients: coefficients(choice, random),
  };
}

const pick = <T>(random: () => number, from: readonly T[]): T => from[Math.floor(random() * from.length)] as T;

/** Graded spacings; b and c only inside the layers, as the contract asks. There is one cell less than nodes. */
function halfStep({ nx, ny, nz, depths }: GridChoice, random: () => number, fewer: number): HalfStepNumbers {
  const axis = (nodes: number, index: number): AxisNumbers => {
    const count = nodes - fewer;
    const inLayer = (at: number) => at < (depths[2 * index] ?? 0) || at > nodes - 1 - (depths[2 * index + 1] ?? 0);
    const numbers = (value: () => number) => Array.from({ length: count }, value);
    const layered = (value: () => number) => Array.from({ length: count }, (_, at) => (inLayer(at) ? value() : 0));
    return {
      inverse: numbers(() => 0.3 + 0.25 * random()),
      b: layered(() => 0.2 + 0.7 * random()),
      c: layered(() => -0.5 * random()),
    };
  };
  return { x: axis(nx, AXIS_INDEX.x), y: axis(ny, AXIS_INDEX.y), z: axis(nz, AXIS_INDEX.z) };
}

/** Vacuum, two lossy materials and metal by blocks of the grid; closed high walls; cells cut by metal along some rows. */
function coefficients(choice: GridChoice, random: () => number): MemoryRequest['coefficients'] {
  const { nx, ny, nz, open } = choice;
  const block = () => (random() * 100 < choice.filledPercent ? pick(random, [0, 2, 3]) : 1);
  const blocks = Array.from({ length: 64 }, block);
  const table = [
    [0, 0],
    [1, 1],
    [0.99, 0.4],
    [0.9, 0.25],
  ] as const;
  const nodes = [nx, ny, nz];
  /** Tangential edges of closed walls, and all that lies beyond the high ones, are metal. */
  const isShut = (axis: number, component: ElectricName, position: number) => {
    const isAlong = AXIS_INDEX[component[1] as 'x' | 'y' | 'z'] === axis;
    if (position >= (nodes[axis] ?? 0) - 1) return true;
    return position === 0 && !isAlong && open[axis] !== true;
  };
  return {
    electric(component, { j, k }, { ca, cb }) {
      if (isShut(1, component, j) || isShut(2, component, k)) return;
      for (let i = 0; i < nx; i++) {
        if (isShut(0, component, i)) continue;
        const material = blocks[(((i >> 2) * 7 + (j >> 2)) * 5 + (k >> 2)) & 63] ?? 1;
        [ca[i], cb[i]] = table[material] as readonly [number, number];
      }
    },
    magnetic(_, __, cm) {
      if (random() * 100 >= choice.conformalPercent) return false;
      for (let i = 0; i < nx; i++) cm[i] = 0.6 + 0.6 * random();
      return true;
    },
  };
}

function fillFields(choice: GridChoice, { buffer, layout }: KernelInput): void {
  const random = numbersFrom(choice.seed ^ 0x5bd1e995);
  const memory = new Float32Array(buffer, 0, layout.end);
  const { nx, ny, nz, sx } = layout.shape;
  for (const offset of Object.values(layout.fields)) {
    for (let k = 0; k < nz - 1; k++) {
      for (let j = 0; j < ny - 1; j++) {
        for (let i = 0; i < nx - 1; i++) memory[offset + (k * ny + j) * sx + i] = random() - 0.5;
      }
    }
  }
}

function fillWaves(choice: GridChoice, { buffer, layout }: KernelInput): void {
  const random = numbersFrom(choice.seed ^ 0x1b873593);
  const waves = new Float32Array(buffer, 4 * layout.waves, layout.waveCount * layout.maxBatch);
  waves.forEach((_, index) => {
    waves[index] = random() - 0.5;
  });
}
