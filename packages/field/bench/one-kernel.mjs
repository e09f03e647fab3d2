// Prints the speed of the kernel on one thread and the small grid, million cells/s: the median over two seconds.
import { fastKernel } from '../dist/index.js';
import { cellsOf, coreGrid, SMALL } from './grids.mjs';

const STEPS = 64;
const SECONDS = 2;

const kernel = await fastKernel(coreGrid(SMALL, { isShared: false, maxBatch: STEPS }), { threads: 1 });
kernel.advance(STEPS);
const rates = [];
const start = performance.now();
while (performance.now() - start < 1e3 * SECONDS) {
  const before = performance.now();
  kernel.advance(STEPS);
  rates.push((cellsOf(SMALL) * STEPS) / 1e3 / (performance.now() - before));
}
rates.sort((a, b) => a - b);
console.log(rates[Math.floor(rates.length / 2)]);
process.exit(0);
