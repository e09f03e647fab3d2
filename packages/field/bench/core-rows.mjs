import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { fastKernel, fillNoise, plainKernel } from '../dist/index.js';
import { cellsOf, coreGrid, fieldBytes, LARGE, SMALL } from './grids.mjs';
import { timeRounds } from './rounds.mjs';
import { triad } from './triad.mjs';

const BATCH = 64;
/** Bytes a cell and step that two passes over per-edge arrays move: twelve read and six written numbers. */
const BYTES_OF_A_CELL = 72;

/** Rows of the kernel alone: no absorbing layers, nothing recorded. */
export async function coreRows({ rounds, note }) {
  note('kernel, 145 thousand cells');
  const small = await smallSpeeds(rounds);
  note('kernel, 4.1 million cells');
  const { speeds: large, bytesPerCell } = await largeSpeeds(rounds);
  return [
    ...[1, 2].map((threads) => triadRow(large, threads)),
    plainRow(small),
    threadsRow('145 thousand cells', small),
    threadsRow('4.1 million cells', large),
    await machineRow(note),
    firstStepsRow(small),
    {
      what: 'memory without absorbing layers, bytes a cell',
      value: bytesPerCell,
      atMost: 32,
      noisy: false,
      references: { 'six fields': 24 },
    },
  ];
}

const kernelItem = async (input, threads, { shape, steps }) => {
  const kernel = await fastKernel(input, { threads });
  return {
    name: `kernel ${threads}`,
    threads,
    work: (cellsOf(shape) * steps) / 1e6,
    run() {
      for (let left = steps; left > 0; left -= BATCH) kernel.advance(Math.min(BATCH, left));
    },
    close: () => kernel.close(),
  };
};

async function smallSpeeds(rounds) {
  const input = coreGrid(SMALL, { isShared: true, maxBatch: BATCH });
  const plain = plainKernel(input);
  const one = await kernelItem(input, 1, { shape: SMALL, steps: 256 });
  const two = await kernelItem(input, 2, { shape: SMALL, steps: 256 });
  const plainItem = { name: 'plain', threads: 1, work: (cellsOf(SMALL) * 8) / 1e6, run: () => plain.advance(8) };
  let freshKernel;
  const fresh = {
    name: 'first 200 steps',
    threads: 1,
    work: (cellsOf(SMALL) * 200) / 1e6,
    async prepare() {
      fillNoise(new Float32Array(input.buffer, 0, input.layout.end), input.layout);
      freshKernel = await fastKernel(input, { threads: 1 });
    },
    run() {
      for (let left = 200; left > 0; left -= 8) freshKernel.advance(8);
    },
  };
  const speeds = await timeRounds([plainItem, one, two, fresh], 2 * rounds);
  two.close();
  return speeds;
}

async function largeSpeeds(rounds) {
  const input = coreGrid(LARGE, { isShared: true, maxBatch: BATCH });
  const items = [];
  for (const threads of [1, 2]) {
    items.push(await triadItem(fieldBytes(LARGE), threads));
    items.push(await kernelItem(input, threads, { shape: LARGE, steps: 16 }));
  }
  const speeds = await timeRounds(items, rounds);
  for (const item of items) item.close();
  return { speeds, bytesPerCell: input.buffer.byteLength / cellsOf(LARGE) };
}

async function triadItem(bytes, threads) {
  const reference = await triad(bytes, threads);
  const passes = 4;
  return {
    name: `triad ${threads}`,
    threads,
    work: (reference.bytesOfPass * passes) / 1e9,
    run: () => reference.advance(passes),
    close: () => reference.close(),
  };
}

/**
 * What two threads can reach here at all: two kernels on grids of their own, in two processes that never wait for each
 * other, against one. Processors that share a core, or a busy machine, keep this below 2.
 */
async function machineRow(note) {
  note('two processes side by side');
  const [alone] = await kernelProcesses(1);
  const together = await kernelProcesses(2);
  const both = together.reduce((sum, rate) => sum + rate, 0);
  return {
    what: 'two kernels in two processes / one kernel: the most that 2 threads could give',
    value: both / alone,
    noisy: false,
    references: { 'one, million cells/s': alone, 'both, million cells/s': both },
  };
}

/** Rates, million cells/s, of so many processes that run the small grid at the same time. */
function kernelProcesses(count) {
  const script = new URL('one-kernel.mjs', import.meta.url).pathname;
  const one = async () => Number((await promisify(execFile)(process.execPath, [script])).stdout);
  return Promise.all(Array.from({ length: count }, one));
}

const isNoisy = (...speeds) => speeds.some(({ noisy }) => noisy);

function triadRow(speeds, threads) {
  const [kernel, reference] = [speeds[`kernel ${threads}`], speeds[`triad ${threads}`]];
  return {
    what: `4.1 million cells, ${threads} thread(s): cells/s x ${BYTES_OF_A_CELL} B / triad`,
    value: (kernel.rate * 1e6 * BYTES_OF_A_CELL) / (reference.rate * 1e9),
    atLeast: 2.3,
    noisy: isNoisy(kernel, reference),
    references: { 'kernel, million cells/s': kernel.rate, 'triad, GB/s': reference.rate },
  };
}

function plainRow({ plain, 'kernel 1': kernel }) {
  return {
    what: '145 thousand cells, 1 thread: emitted kernel / scalar kernel',
    value: kernel.rate / plain.rate,
    atLeast: 11,
    noisy: isNoisy(plain, kernel),
    references: { 'emitted, million cells/s': kernel.rate, 'scalar, million cells/s': plain.rate },
  };
}

function threadsRow(what, { 'kernel 1': one, 'kernel 2': two }) {
  return {
    what: `${what}: 2 threads / 1 thread`,
    value: two.rate / one.rate,
    atLeast: 1.75,
    noisy: isNoisy(one, two),
    references: { '1 thread, million cells/s': one.rate, '2 threads, million cells/s': two.rate },
  };
}

function firstStepsRow({ 'kernel 1': steady, 'first 200 steps': first }) {
  return {
    what: '145 thousand cells: first 200 steps from zero fields / steady speed',
    value: first.rate / steady.rate,
    atLeast: 0.95,
    noisy: isNoisy(steady, first),
    references: { 'first, million cells/s': first.rate, 'steady, million cells/s': steady.rate },
  };
}
