import type { Kernel, KernelInput } from '../../kernel.ts';
import { emitKernel } from '../simd/emit-kernel.ts';
import { detectFeatures, requireFeatures } from '../simd/features.ts';
import { memoryOf } from '../simd/memory.ts';
import { chooseSchedule, USUAL_CACHE_BYTES } from '../simd/schedule.ts';
import { checkSteps, type SimdOptions, simdKernel, writeOnes } from '../simd/simd-kernel.ts';
import { webAssembly } from '../simd/web-assembly.ts';
import { Crew } from './crew.ts';
import { currentHost } from './current-host.ts';
import type { Host } from './host.ts';

export interface FastOptions extends SimdOptions {
  /** Default: all that `usableThreads` gives, or 1 where the memory is not shared. */
  readonly threads?: number;
  /** Ends the kernel: a batch that is awaited is rejected, and later ones throw the reason. */
  readonly signal?: AbortSignal;
}

/** Threads that the fast kernel can use here: 1 where memory cannot be shared. */
export function usableThreads(): number {
  return detectFeatures().threads ? (currentHost()?.processors ?? 1) : 1;
}

/**
 * The fast kernel on several threads, or on the calling one alone. The calling thread takes its share where it may sleep
 * (Node, a web worker): `advance` then returns when the batch is done. On the thread that draws a page workers do all, and
 * `advance` returns a promise.
 *
 * One kernel at a time may run on one memory. After an abort in the middle of a batch the fields are of no use.
 *
 * @throws Error where the host lacks a feature; TypeError for memory that did not come from `wasmMemory`, or that is not
 * shared although several threads are asked for; the signal's reason when it is already aborted.
 */
export async function fastKernel(input: KernelInput, options: FastOptions = {}): Promise<Kernel> {
  options.signal?.throwIfAborted();
  const isShared = !(input.buffer instanceof ArrayBuffer);
  const wanted = options.threads ?? (isShared ? usableThreads() : 1);
  const threads = Math.min(wanted, input.layout.shape.nz);
  if (!(Number.isInteger(threads) && threads >= 1))
    throw new RangeError(`threads must be a whole number, got ${wanted}.`);
  if (threads === 1) return stoppable(simdKernel(input, options), options.signal);
  if (!isShared) throw new TypeError('Several threads need memory from wasmMemory({ isShared: true }).');
  const host = currentHost();
  if (host === undefined) throw new Error('This host has no workers; use one thread.');
  return threadedKernel(input, { ...options, threads, host });
}

/** The kernel on several threads of a given host. */
export async function threadedKernel(
  input: KernelInput,
  options: FastOptions & { threads: number; host: Host },
): Promise<Kernel> {
  const { host, threads, signal, fusedMultiplyAdd = false, cacheBytes = USUAL_CACHE_BYTES } = options;
  requireFeatures(detectFeatures(), { threads, fusedMultiplyAdd });
  const schedule = options.schedule ?? chooseSchedule({ layout: input.layout, threads, cacheBytes });
  const { bytes, control } = emitKernel({ input, schedule, threads, options: { fusedMultiplyAdd } });
  writeOnes(input, control.ones);
  const { Module, Instance } = webAssembly();
  const module = new Module(bytes);
  const memory = memoryOf(input.buffer);
  const all = Array.from({ length: threads }, (_, thread) => thread);
  const team = { host, module, memory, control, threads: host.maySleep ? all.slice(1) : all, reports: !host.maySleep };
  const crew = await Crew.start(team);
  const own = host.maySleep ? new Instance(module, { env: { memory } }).exports.advance : undefined;
  const kernel: Kernel = {
    name: `simd ${schedule.kind}, ${threads} threads`,
    advance(steps) {
      checkSteps(input, steps);
      crew.command(steps);
      if (own === undefined) return crew.batchEnd();
      runShare(own, steps);
      return undefined;
    },
    close: () => crew.end(),
  };
  return stoppable(kernel, signal, (reason) => crew.end(reason));
}

/** The share of the calling thread. It traps when a worker has failed, because it would wait for ever. */
function runShare(advance: (thread: number, steps: number) => number, steps: number): void {
  try {
    advance(0, steps);
  } catch (cause) {
    throw new Error('A worker of the field kernel has failed.', { cause });
  }
}

/** The same kernel, which refuses to go on once it is closed or the signal is aborted. */
function stoppable(kernel: Kernel, signal: AbortSignal | undefined, stop?: (reason: Error) => void): Kernel {
  let isClosed = false;
  const onAbort = () => {
    if (!isClosed) stop?.(signal?.reason);
    isClosed = true;
  };
  signal?.addEventListener('abort', onAbort, { once: true });
  return {
    name: kernel.name,
    advance(steps) {
      signal?.throwIfAborted();
      if (isClosed) throw new Error('The kernel was closed.');
      return kernel.advance(steps);
    },
    close() {
      signal?.removeEventListener('abort', onAbort);
      if (!isClosed) kernel.close();
      isClosed = true;
    },
  };
}
