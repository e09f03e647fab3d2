import { type KernelInput, type PsiName, plainKernel } from '@sheetwave/field';

/** Every number that a kernel may change, as bits, by the name of its array. */
export function stateBits({ buffer, layout }: KernelInput): Record<string, Uint32Array> {
  const { sx, ny, nz } = layout.shape;
  const slab = {
    x: layout.slabs.x.width * ny * nz,
    y: sx * layout.slabs.y.width * nz,
    z: sx * ny * layout.slabs.z.width,
  };
  const bits = (offset: number, length: number) => new Uint32Array(buffer, 4 * offset, length).slice();
  const state: Record<string, Uint32Array> = {};
  for (const [name, offset] of Object.entries(layout.fields)) state[name] = bits(offset, sx * ny * nz);
  for (const [name, offset] of Object.entries(layout.psi) as [PsiName, number][]) {
    state[`psi ${name}`] = bits(offset, slab[name[2] as 'x' | 'y' | 'z']);
  }
  state.records = bits(layout.records, layout.probeCount * layout.maxBatch);
  state.states = bits(layout.states, layout.end - layout.states);
  return state;
}

/** Batches of these lengths by the plain kernel. */
export function plainBits(input: KernelInput, batches: readonly number[]): Record<string, Uint32Array> {
  const kernel = plainKernel(input);
  for (const steps of batches) kernel.advance(steps);
  return stateBits(input);
}

/** The first number that differs, in words; undefined when all bits are the same. */
export function firstDifference(
  expected: Record<string, Uint32Array>,
  actual: Record<string, Uint32Array>,
): string | undefined {
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
  return Object.values(layout.fields).reduce(
    (most, offset) =>
      new Float32Array(buffer, 4 * offset, sx * ny * nz).reduce((a, b) => Math.max(a, Math.abs(b)), most),
    0,
  );
}
