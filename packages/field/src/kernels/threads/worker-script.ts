import type { WasmMemory, WasmModule } from '../simd/web-assembly.ts';

/** The one message that a worker gets. */
export interface Assignment {
  readonly module: WasmModule;
  readonly memory: WasmMemory;
  readonly thread: number;
  /** The last command that is not meant for this worker. */
  readonly seen: number;
  /** Byte address of the word to set on failure. */
  readonly failed: number;
  /** Whether to tell the end of each batch. */
  readonly reports: boolean;
}

export const READY = 'ready';
export const DONE = 'done';

/**
 * All that a worker runs: it waits for commands inside WebAssembly, and never returns to its event loop before the last.
 * A text, so that no bundler has to find a second file, and no loader has to translate it.
 */
export const WORKER_SCRIPT = `
function serve({ module, memory, thread, seen, failed, reports }) {
  try {
    const { command, advance } = new WebAssembly.Instance(module, { env: { memory } }).exports;
    port.postMessage('${READY}');
    for (let steps = command(seen); steps > 0; steps = command(seen)) {
      advance(thread, steps);
      if (reports) port.postMessage('${DONE}');
      seen += 1;
    }
  } catch (error) {
    Atomics.store(new Int32Array(memory.buffer), failed / 4, 1);
    port.postMessage(String(error));
  }
  port.close();
}
`;
