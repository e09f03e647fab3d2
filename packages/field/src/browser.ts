import type { Host, HostWorker } from './kernels/threads/host.ts';

/** The part of a page's, or a worker's, global scope that is used here. */
interface Page {
  readonly Worker?: new (url: string) => PageWorker;
  readonly navigator?: { readonly hardwareConcurrency?: number };
  readonly Blob: new (parts: string[], options: { type: string }) => object;
  readonly URL: { createObjectURL(blob: object): string; revokeObjectURL(url: string): void };
}

interface PageWorker {
  postMessage(message: unknown): void;
  terminate(): void;
  onmessage: ((event: { readonly data: unknown }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
}

const PORT = `
const port = self;
self.onmessage = (event) => serve(event.data);
`;

/** A browser's web workers; undefined where there are none. */
export function browserHost(): Host | undefined {
  const page = globalThis as unknown as Page;
  const { Worker } = page;
  if (Worker === undefined) return undefined;
  return {
    processors: page.navigator?.hardwareConcurrency ?? 1,
    maySleep: maySleep(),
    pause: () => new Promise((resolve) => void setTimeout(resolve)),
    startWorker(script) {
      const url = page.URL.createObjectURL(new page.Blob([`${script}${PORT}`], { type: 'text/javascript' }));
      const worker = new Worker(url);
      return wrap(worker, () => page.URL.revokeObjectURL(url));
    },
  };
}

function wrap(worker: PageWorker, onFirstMessage: () => void): HostWorker {
  let isFirst = true;
  return {
    post: (message) => worker.postMessage(message),
    onMessage(listener) {
      worker.onmessage = ({ data }) => {
        if (isFirst) onFirstMessage();
        isFirst = false;
        listener(data);
      };
    },
    onFailure(listener) {
      worker.onerror = (event) => listener(event.message ?? 'the worker could not be started');
    },
    release() {},
    end: () => worker.terminate(),
  };
}

/** The thread that draws a page throws instead of sleeping. Here it would not sleep: the word has another value. */
function maySleep(): boolean {
  try {
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 1, 0);
    return true;
  } catch {
    return false;
  }
}
