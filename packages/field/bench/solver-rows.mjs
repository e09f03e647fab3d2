import { fastKernel, planScene, pulseFor, runExcitation, solve, wasmMemory } from '../dist/index.js';
import { surfaceSampler } from '../dist/surface-sampler.js';
import { cellsOf, coreGrid } from './grids.mjs';
import { best, timeOnce } from './rounds.mjs';
import { BAND, fourStacks, oneStack } from './scenes.mjs';

const THREADS = 2;
const BATCH = 32;
/** Steps of one measurement: a whole number of looks at the energy, so that each pays its share of them. */
const MEASURED_STEPS = 256;
const shared = wasmMemory({ isShared: true });

/** Rows of the whole solver: absorbing layers, ports, probes and the sampling of far fields included. */
export async function solverRows({ rounds, note }) {
  const rows = [];
  for (const threads of [1, THREADS]) {
    note(`whole solver, ${threads} thread(s)`);
    const small = {
      scene: oneStack,
      rules: { cellsPerWavelength: 16, layer: 8 },
      quality: 'draft',
      steps: MEASURED_STEPS,
    };
    const large = { scene: fourStacks, rules: { cellsPerWavelength: 46 }, quality: 'fine', steps: MEASURED_STEPS / 4 };
    rows.push(await wholeRow(small, { threads, rounds, atLeast: 0.6 }));
    rows.push(await wholeRow(large, { threads, rounds: Math.min(rounds, 4), atLeast: 0.75 }));
  }
  note('meshing and solving an array of 2 x 2');
  rows.push(await meshingRow());
  return rows;
}

/** The whole solver against the core kernel on a grid of as many nodes, in turn, in one run. */
async function wholeRow({ scene, rules, quality, steps }, { threads, rounds, atLeast }) {
  const { model } = planScene(scene, { band: BAND, quality, rules, symmetry: false });
  const [nx, ny, nz] = ['x', 'y', 'z'].map((axis) => model.grid.lines[axis].length);
  const shape = { nx, ny, nz };
  const coreInput = coreGrid(shape, { isShared: true, maxBatch: BATCH });
  const core = await fastKernel(coreInput, { threads });
  const work = (cellsOf(shape) * steps) / 1e6;
  const advanceCore = () => {
    for (let done = 0; done < steps; done += BATCH) core.advance(BATCH);
  };
  const samples = { core: [], whole: [] };
  const turns = wholeTurns({ model, threads, steps, rounds });
  await turns.next();
  advanceCore();
  for (let round = 0; round < rounds; round++) {
    samples.core.push(await timeOnce({ run: advanceCore, work, threads }));
    samples.whole.push(await timeOnce({ run: () => turns.next(), work, threads }));
  }
  await turns.end();
  core.close();
  const [whole, kernel] = [best(samples.whole), best(samples.core)];
  return {
    what: `${(cellsOf(shape) / 1e6).toPrecision(2)} million cells, ${threads} thread(s): whole solver / core kernel`,
    value: whole.rate / kernel.rate,
    atLeast,
    noisy: whole.noisy || kernel.noisy,
    references: { 'whole, million cells/s': whole.rate, 'core, million cells/s': kernel.rate },
  };
}

/** A run of the solver that stands still between measurements: `next` lets it do as many steps as are measured at once. */
function wholeTurns({ model, threads, steps, rounds }) {
  let resume;
  let reach;
  let done = 0;
  const pause = () =>
    new Promise((resolve) => {
      resume = resolve;
      reach?.();
    });
  const kernel = async (input) => {
    const fast = await fastKernel(input, { threads });
    return {
      name: fast.name,
      close: () => fast.close(),
      async advance(count) {
        if (done % steps === 0) await pause();
        done += count;
        return fast.advance(count);
      },
    };
  };
  const timing = { dt: model.dt, interval: BATCH * model.dt };
  const run = runExcitation({
    model,
    port: 0,
    waveform: pulseFor(BAND),
    kernel,
    allocate: shared,
    observers: [surfaceSampler(model.grid, [BAND.low, (BAND.low + BAND.high) / 2, BAND.high], timing)],
    stopDb: -1000,
    mostSteps: (rounds + 2) * steps,
    batch: BATCH,
  });
  const next = () => {
    const reached = new Promise((resolve) => {
      reach = resolve;
    });
    resume?.();
    return reached;
  };
  return {
    next,
    async end() {
      resume?.();
      await next();
      resume?.();
      await run;
    },
  };
}

async function meshingRow() {
  const kernel = (input) => fastKernel(input, { threads: THREADS });
  const options = { band: BAND, quality: 'normal', symmetry: false, farFieldHz: [5.3e9] };
  const start = performance.now();
  const plan = planScene(fourStacks, options);
  const meshSeconds = (performance.now() - start) / 1e3;
  const solveStart = performance.now();
  const { runs } = await solve(fourStacks, { ...options, kernel, allocate: shared });
  const seconds = (performance.now() - solveStart) / 1e3;
  return {
    what: `array of 2 x 2, ${(plan.report.cells / 1e6).toPrecision(2)} million cells: meshing / solving`,
    value: meshSeconds / seconds,
    atMost: 0.1,
    noisy: false,
    references: { 'meshing, s': meshSeconds, 'solving one port, s': seconds, steps: runs[0].steps },
  };
}
