import type { Worker } from 'node:worker_threads';
import type { Host, HostWorker } from './kernels/threads/host.ts';

const PORT = `
const { parentPort: port } = require('node:worker_threads');
port.once('message', serve);
`;

/** Node's worker threads; undefined elsewhere. Asks the process for its modules, so that bundlers have none to find. */
export function nodeHost(): Host | undefined {
  if (typeof process === 'undefined' || typeof process.getBuiltinModule !== 'function') return undefined;
  const threads = process.getBuiltinModule('node:worker_threads');
  return {
    processors: process.getBuiltinModule('node:os').availableParallelism(),
    maySleep: true,
    pause: () => new Promise((resolve) => void setImmediate(resolve)),
    startWorker: (script) => wrap(new threads.Worker(`${script}${PORT}`, { eval: true })),
  };
}

function wrap(worker: Worker): HostWorker {
  return {
    post: (message) => worker.postMessage(message),
    onMessage: (listener) => worker.on('message', listener),
    onFailure: (listener) => worker.on('error', listener),
    release: () => worker.unref(),
    end: () => void worker.terminate(),
  };
}
