// Runs in a page, and again in a worker of that page: the fast kernel against the plain one, on every number of threads
// that the host has.
import { coreGrid } from '../../packages/field/bench/grids.mjs';
import { fastKernel, plainKernel, usableThreads } from '../../packages/field/dist/index.js';

const SHAPE = { nx: 30, ny: 21, nz: 18 };

function filledGrid(isShared) {
  const input = coreGrid(SHAPE, { isShared, maxBatch: 16 });
  const { fields, shape } = input.layout;
  const memory = new Float32Array(input.buffer, 0, input.layout.end);
  for (let k = 1; k < shape.nz - 1; k++) {
    for (let j = 1; j < shape.ny - 1; j++) {
      for (let i = 1; i < shape.nx - 1; i++)
        memory[fields.ez + (k * shape.ny + j) * shape.sx + i] = Math.sin(i * j + k);
    }
  }
  return input;
}

/** Numbers of ez at nodes whose bits differ from those of the plain kernel, after two batches. */
async function differences(threads) {
  const judge = filledGrid(false);
  const plain = plainKernel(judge);
  const input = filledGrid(threads > 1);
  const kernel = await fastKernel(input, { threads });
  let isPromise = false;
  for (const steps of [16, 9]) {
    plain.advance(steps);
    const ended = kernel.advance(steps);
    isPromise = ended instanceof Promise;
    await ended;
  }
  kernel.close();
  const { fields, shape } = input.layout;
  const bits = ({ buffer }) => new Uint32Array(buffer, 4 * fields.ez, shape.sx * shape.ny * shape.nz);
  const [expected, found] = [bits(judge), bits(input)];
  const differing = expected.filter((word, at) => at % shape.sx < shape.nx && word !== found[at]).length;
  return { threads, name: kernel.name, differing, isPromise };
}

async function report() {
  const runs = [await differences(1)];
  if (usableThreads() > 1) for (const threads of [2, 3]) runs.push(await differences(threads));
  return { isIsolated: globalThis.crossOriginIsolated, runs };
}

const answer = await report().catch((error) => ({ failure: String(error?.stack ?? error) }));
if (typeof document === 'undefined') {
  postMessage(answer);
} else {
  const inWorker = await new Promise((resolve) => {
    const worker = new Worker(import.meta.url, { type: 'module' });
    worker.onmessage = ({ data }) => resolve(data);
    worker.onerror = ({ message }) => resolve({ failure: message });
  });
  await fetch('/answer', { method: 'POST', body: JSON.stringify({ inPage: answer, inWorker }) });
}
