import type { KernelInput, Layout } from '../../kernel.ts';
import { ELECTRIC_NAMES } from '../../update.ts';

/** Elements of a row, in whole vectors. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** Whole vectors that hold all nodes of a row. */
export const usedElements = ({ shape }: Layout): number => 4 * Math.ceil(shape.nx / 4);

/** A row without the vectors at its walls. */
export function innerSpan({ shape }: Layout): Span {
  return { from: 4, to: Math.max(4, 4 * Math.floor((shape.nx - 1) / 4)) };
}

/** Each address costs some instructions a row, so rare ones are left out. */
const LEAST_SHARE = 0.05;

/**
 * Addresses of the coefficient rows that are 1 all through the inner span, most used first. Most rows of most scenes lie in
 * air, and there both multiplications and their loads may be left out without changing a bit.
 */
export function airRows({ buffer, layout }: KernelInput): number[] {
  const { ny, nz } = layout.shape;
  const uses = new Map<number, number>();
  for (const name of ELECTRIC_NAMES) {
    for (const address of new Uint32Array(buffer, 4 * layout.rows[name], ny * nz)) {
      uses.set(address, (uses.get(address) ?? 0) + 1);
    }
  }
  return [...uses]
    .filter(([, count]) => count >= LEAST_SHARE * ELECTRIC_NAMES.length * ny * nz)
    .filter(([address]) => isAir({ buffer, layout }, address))
    .sort(([, a], [, b]) => b - a)
    .map(([address]) => address);
}

function isAir({ buffer, layout }: Pick<KernelInput, 'buffer' | 'layout'>, address: number): boolean {
  const { sx } = layout.shape;
  const { from, to } = innerSpan(layout);
  const row = new Float32Array(buffer, address, 2 * sx);
  const isOne = (value: number) => value === 1;
  return to > from && row.subarray(from, to).every(isOne) && row.subarray(sx + from, sx + to).every(isOne);
}
