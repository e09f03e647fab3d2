import { fastKernel, planScene, pulseFor, runExcitation, solve, wasmMemory } from '../dist/index.js';
import { sampleSteps } from '../dist/sample-steps.js';
import { surfaceSampler } from '../dist/surface-sampler.js';
import { cellsOf, coreGrid } from './grids.mjs';
import { pausingKernel } from './pausing-kernel.mjs';
import { best, timeOnce } from './rounds.mjs';
import { BAND, CHOICES, fourStacks, oneStack } from './scenes.mjs';

const THREADS = 2;
/** Steps between two looks at the energy: a measurement holds whole ones, so that each pays its share of them. */
const ENERGY_EVERY = 128;
const shared = wasmMemory({ isShared: true });
const waveform = pulseFor(BAND);

const SMALL = { scene: oneStack, ...CHOICES.small, looks: 3, atLeast: 0.6 };
const LARGE = { scene: fourStacks, ...CHOICES.large, looks: 1, atLeast: 0.75 };

/** Rows of the whole solver: absorbing layers, ports, probes and the sampling of far fields included. */
export async function solverRows({ rounds, note }) {
  const rows = [];
  for (const threads of [1, THREADS]) {
    for (const choice of [SMALL, LARGE]) {
      note(`whole solver, ${threads} thread(s)`);
      rows.push(await wholeRow(choice, { threads, rounds }));
    }
  }
  note('whole solutions of one stack and of an array of 2 x 2');
  rows.push(...(await solutionRows()));
  return rows;
}

const FAR = [BAND.low, (BAND.low + BAND.high) / 2, BAND.high];

/** The whole solver against the core kernel on a grid of as many nodes, in turn, in one run. */
async function wholeRow({ scene, quality, cellsPerWavelength, looks, atLeast }, { threads, rounds }) {
  const { model } = planScene(scene, { band: BAND, quality, rules: { cellsPerWavelength }, symmetry: false });
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

/** Whole solutions as a user asks for them: match and gain over the band at normal quality. */
async function solutionRows() {
  const [one, four] = [await timeSolution(oneStack), await timeSolution(fourStacks)];
  const cost = ({ seconds, work }) => seconds / work;
  return [
    {
      what: `array of 2 x 2, ${(four.cells / 1e6).toPrecision(2)} million cells: meshing / solving`,
      value: four.meshSeconds / four.seconds,
      atMost: 0.1,
      noisy: false,
      references: { 'meshing, s': four.meshSeconds, 'solving one port, s': four.seconds, steps: four.steps },
    },
    {
      what: 'array of 2 x 2 / one stack: seconds for a cell and step of a whole solution',
      value: cost(four) / cost(one),
      noisy: false,
      references: {
        'one stack of three layers, s': one.seconds,
        'its cells': one.cells,
        'its steps': one.steps,
        'array, s': four.seconds,
      },
    },
  ];
}

async function timeSolution(scene) {
  const options = { band: BAND, quality: 'normal', symmetry: false, farFieldHz: FAR };
  const start = performance.now();
  const { report } = planScene(scene, options);
  const meshSeconds = (performance.now() - start) / 1e3;
  const kernel = (input) => fastKernel(input, { threads: THREADS });
  const solveStart = performance.now();
  const { runs } = await solve(scene, { ...options, kernel, allocate: shared });
  const seconds = (performance.now() - solveStart) / 1e3;
  const { steps } = runs[0];
  return { cells: report.cells, steps, meshSeconds, seconds, work: report.cells * steps };
}
