import { fastKernel, planScene, pulseFor, runExcitation, solve, wasmMemory } from '../dist/index.js';
import { sampleSteps } from '../dist/sample-steps.js';
import { surfaceSampler } from '../dist/surface-sampler.js';
import { cellsOf, coreGrid } from './grids.mjs';
import { pausingKernel } from './pausing-kernel.mjs';
import { best, timeOnce } from './rounds.mjs';
import { BAND, fourStacks, oneStack } from './scenes.mjs';

const THREADS = 2;
/** Steps between two looks at the energy: a measurement holds whole ones, so that each pays its share of them. */
const ENERGY_EVERY = 128;
const shared = wasmMemory({ isShared: true });
const waveform = pulseFor(BAND);

/** One stack: 153 thousand cells. Four: 4.1 million. */
const SMALL = { scene: oneStack, quality: 'draft', rules: { cellsPerWavelength: 20 }, looks: 3, atLeast: 0.6 };
const LARGE = { scene: fourStacks, quality: 'fine', rules: { cellsPerWavelength: 54 }, looks: 1, atLeast: 0.75 };

/** Rows of the whole solver: absorbing layers, ports, probes and the sampling of far fields included. */
export async function solverRows({ rounds, note }) {
  const rows = [];
  for (const threads of [1, THREADS]) {
    for (const choice of [SMALL, LARGE]) {
      note(`whole solver, ${threads} thread(s)`);
      rows.push(await wholeRow(choice, { threads, rounds }));
    }
  }
  note('meshing and solving an array of 2 x 2');
  rows.push(await meshingRow());
  return rows;
}

const FAR = [BAND.low, (BAND.low + BAND.high) / 2, BAND.high];

/** The whole solver against the core kernel on a grid of as many nodes, in turn, in one run. */
async function wholeRow({ scene, quality, rules, looks, atLeast }, { threads, rounds }) {
  const { model } = planScene(scene, { band: BAND, quality, rules, symmetry: false });
  const [nx, ny, nz] = ['x', 'y', 'z'].map((axis) => model.grid.lines[axis].length);
  const shape = { nx, ny, nz };
  const batch = sampleSteps(model.dt, waveform, FAR);
  const steps = looks * Math.ceil(ENERGY_EVERY / batch) * batch;
  const core = await fastKernel(coreGrid(shape, { isShared: true, maxBatch: batch }), { threads });
  const runCore = () => {
    for (let done = 0; done < steps; done += batch) core.advance(batch);
  };
  const whole = startWhole(model, { threads, batch, steps, rounds });
  const item = { work: (cellsOf(shape) * steps) / 1e6, threads };
  const samples = { core: [], whole: [] };
  await whole.next();
  for (let round = 0; round <= rounds; round++) {
    samples.core.push(await timeOnce({ ...item, run: runCore }));
    samples.whole.push(await timeOnce({ ...item, run: whole.next }));
  }
  await whole.end();
  core.close();
  const [solver, kernel] = [samples.whole, samples.core].map((all) => best(all.slice(1)));
  return {
    what: `${(cellsOf(shape) / 1e6).toPrecision(2)} million cells, ${threads} thread(s): whole solver / core kernel`,
    value: solver.rate / kernel.rate,
    atLeast,
    noisy: solver.noisy || kernel.noisy,
    references: { 'whole, million cells/s': solver.rate, 'core, million cells/s': kernel.rate },
  };
}

/** A run of the solver that stands still between two measurements. */
function startWhole(model, { threads, batch, steps, rounds }) {
  const { kernel, next, release } = pausingKernel((input) => fastKernel(input, { threads }), steps);
  const run = runExcitation({
    model,
    port: 0,
    waveform,
    kernel,
    allocate: shared,
    observers: [surfaceSampler(model.grid, FAR, { dt: model.dt, interval: batch * model.dt })],
    stopDb: -1000,
    mostSteps: (rounds + 2) * steps,
    batch,
  });
  return {
    next,
    async end() {
      release();
      await run;
    },
  };
}

async function meshingRow() {
  const options = { band: BAND, quality: 'normal', symmetry: false, farFieldHz: [5.3e9] };
  const start = performance.now();
  const plan = planScene(fourStacks, options);
  const meshSeconds = (performance.now() - start) / 1e3;
  const kernel = (input) => fastKernel(input, { threads: THREADS });
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
