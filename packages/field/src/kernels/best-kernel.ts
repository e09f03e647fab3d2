import type { KernelMaker, MemoryMaker } from '../kernel.ts';
import { plainKernel } from './plain.ts';
import { detectFeatures, type WasmFeatures } from './simd/features.ts';
import { wasmMemory } from './simd/memory.ts';
import { fastKernel, usableThreads } from './threads/threaded-kernel.ts';

export interface KernelChoice {
  readonly kernel: KernelMaker;
  /** Left out where any memory will do. */
  readonly allocate?: MemoryMaker;
  /** Why it is not the fastest kernel on all threads; left out when it is. */
  readonly reason?: string;
}

export interface BestKernelOptions {
  /** Threads wanted; default all that can be used. */
  readonly threads?: number | undefined;
  readonly signal?: AbortSignal | undefined;
  /** Default: those of this host. */
  readonly features?: WasmFeatures;
}

/** The fastest kernel that this host runs: in WebAssembly on all threads, on one, or in plain TypeScript. */
export function bestKernel({ threads, signal, features = detectFeatures() }: BestKernelOptions = {}): KernelChoice {
  if (!features.simd) {
    return { kernel: plainKernel, reason: 'this host runs no WebAssembly SIMD, so the plain kernel is used' };
  }
  const most = features.threads ? usableThreads() : 1;
  const used = features.threads ? (threads ?? most) : 1;
  const options = { threads: used, ...(signal ? { signal } : {}) };
  const choice = {
    kernel: (input: Parameters<KernelMaker>[0]) => fastKernel(input, options),
    allocate: wasmMemory({ isShared: used > 1 }),
  };
  if (features.threads) return choice;
  return { ...choice, reason: 'this host shares no memory between threads, so one thread is used' };
}
