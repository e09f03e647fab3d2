import type { Kernel, KernelInput } from '../../kernel.ts';
import { emitKernel } from './emit-kernel.ts';
import { detectFeatures, requireFeatures } from './features.ts';
import { memoryOf } from './memory.ts';
import { chooseSchedule, type Schedule, USUAL_CACHE_BYTES } from './schedule.ts';
import { webAssembly } from './web-assembly.ts';

export interface SimdOptions {
  /** Default: chosen by the size of the grid. */
  readonly schedule?: Schedule;
  /** Second-level cache of one core in bytes, for the choice; default 2 MiB. */
  readonly cacheBytes?: number;
  /** Default false. Faster, but results then depend on the host. */
  readonly fusedMultiplyAdd?: boolean;
}

/** Writes ones into the row that stands in for absent magnetic coefficients. */
export function writeOnes({ buffer, layout }: KernelInput, ones: number): void {
  new Float32Array(buffer, ones, layout.shape.sx).fill(1);
}

export function checkSteps({ layout }: KernelInput, steps: number): void {
  if (!(Number.isInteger(steps) && steps >= 1 && steps <= layout.maxBatch)) {
    throw new RangeError(`steps must be a whole number from 1 to ${layout.maxBatch}, got ${steps}.`);
  }
}

/**
 * The fast kernel on the calling thread: WebAssembly SIMD written for this very grid. Same bits as the plain kernel, unless
 * multiplications and additions are fused.
 *
 * @throws Error where the host lacks a feature; TypeError for memory that did not come from `wasmMemory`.
 */
export function simdKernel(input: KernelInput, options: SimdOptions = {}): Kernel {
  const { fusedMultiplyAdd = false, cacheBytes = USUAL_CACHE_BYTES } = options;
  requireFeatures(detectFeatures(), { threads: 1, fusedMultiplyAdd });
  const schedule = options.schedule ?? chooseSchedule({ layout: input.layout, threads: 1, cacheBytes });
  const { bytes, control } = emitKernel({ input, schedule, threads: 1, options: { fusedMultiplyAdd } });
  writeOnes(input, control.ones);
  const host = webAssembly();
  const instance = new host.Instance(new host.Module(bytes), { env: { memory: memoryOf(input.buffer) } });
  const advance = instance.exports.advance as (thread: number, steps: number) => number;
  return {
    name: `simd ${schedule.kind}`,
    advance(steps) {
      checkSteps(input, steps);
      advance(0, steps);
    },
    close() {},
  };
}
