import { type KernelInput, type PsiName, plainKernel } from '@sheetwave/field';

type State = Readonly<Record<string, Uint32Array>>;

/**
 * Every number that a kernel may change, as bits, by the name of its array. Of each row only the nodes: the padding is
 * nobody's.
 */
export function stateBits({ buffer, layout }: KernelInput): State {
  const { nx, sx, ny, nz } = layout.shape;
  const { x, y, z } = layout.slabs;
  const bits = (offset: number, length: number) => new Uint32Array(buffer, 4 * offset, length).slice();
  const rows = (offset: number, { count, length, used }: { count: number; length: number; used: number }) => {
    const all = new Uint32Array(buffer, 4 * offset, count * length);
    return all.filter((_, index) => index % length < used);
  };
  const nodesOfX = Math.min(x.width, x.lowEnd + nx - x.highStart);
  const shapes = {
    x: { count: ny * nz, length: x.width, used: nodesOfX },
    y: { count: y.width * nz, length: sx, used: nx },
    z: { count: ny * z.width, length: sx, used: nx },
  };
  const state: Record<string, Uint32Array> = {};
  for (const [name, offset] of Object.entries(layout.fields)) {
    state[name] = rows(offset, { count: ny * nz, length: sx, used: nx });
  }
  for (const [name, offset] of Object.entries(layout.psi) as [PsiName, number][]) {
    state[`psi ${name}`] = rows(offset, shapes[name[2] as 'x' | 'y' | 'z']);
  }
  state.records = bits(layout.records, layout.probeCount * layout.maxBatch);
  state.states = bits(layout.states, layout.end - layout.states);
  return state;
}

/** The bits after batches of these lengths by the plain kernel. */
export function plainBits(input: KernelInput, batches: readonly number[]): State {
  const kernel = plainKernel(input);
  for (const steps of batches) kernel.advance(steps);
  return stateBits(input);
}

/** The first number that differs, in words; undefined when all bits are the same. */
export function firstDifference(expected: State, actual: State): string | undefined {
  for (const [name, bits] of Object.entries(expected)) {
    const other = actual[name] ?? new Uint32Array();
    const at = bits.findIndex((word, index) => word !== other[index]);
    if (at >= 0) return `${name}[${at}]: ${asNumber(bits[at])} expected, ${asNumber(other[at])} found`;
  }
  return undefined;
}

const asNumber = (bits = 0) => new Float32Array(Uint32Array.of(bits).buffer)[0];

/** The greatest absolute value in the fields: shows that a run did something and stayed finite. */
export function greatestField({ buffer, layout }: KernelInput): number {
  const { sx, ny, nz } = layout.shape;
  const greatest = (offset: number) =>
    new Float32Array(buffer, 4 * offset, sx * ny * nz).reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return Math.max(...Object.values(layout.fields).map(greatest));
}
