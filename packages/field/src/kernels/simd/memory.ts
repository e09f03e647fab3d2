import type { MemoryMaker } from '../../kernel.ts';
import { type WasmMemory, webAssembly } from './web-assembly.ts';

const PAGE = 65_536;

/** Bytes behind every layout that belong to the kernel: a row of ones, then control words. */
const EXTRA_BYTES = 2 * PAGE;

const memories = new WeakMap<ArrayBufferLike, WasmMemory>();

export interface MemoryOptions {
  /** Shared memory, which more than one thread needs. */
  readonly isShared: boolean;
}

/**
 * Makes memory that the kernels in WebAssembly can run on: hand it to `buildMemory` as `allocate`. A little longer than
 * asked for, because the kernel keeps its own words behind the layout.
 *
 * @throws RangeError above 4 GiB, or where the host has not that much memory.
 */
export function wasmMemory({ isShared }: MemoryOptions): MemoryMaker {
  return (bytes) => {
    const pages = Math.ceil((bytes + EXTRA_BYTES) / PAGE);
    if (pages > PAGE) {
      throw new RangeError(`The grid needs ${Math.ceil(bytes / 2 ** 20)} MiB; WebAssembly reaches 4096 MiB.`);
    }
    const memory = new (webAssembly().Memory)({ initial: pages, maximum: pages, shared: isShared });
    memories.set(memory.buffer, memory);
    return memory.buffer;
  };
}

/**
 * The memory behind a buffer.
 * @throws TypeError for a buffer that did not come from `wasmMemory`.
 */
export function memoryOf(buffer: ArrayBufferLike): WasmMemory {
  const memory = memories.get(buffer);
  if (memory === undefined) throw new TypeError('The fast kernel runs only on memory allocated by wasmMemory().');
  return memory;
}

export const pagesOf = (memory: WasmMemory): number => memory.buffer.byteLength / PAGE;
