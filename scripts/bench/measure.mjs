import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '..', '..');
const command = join(root, 'packages', 'cli', 'bin', 'sheetwave.mjs');
const report = pathToFileURL(join(here, 'report-use.mjs')).href;

/** Runs the command once in a new folder: wall seconds, processor seconds, peak memory in MiB. Throws when it does not succeed. */
function runOnce({ args, input }) {
  const cwd = mkdtempSync(join(tmpdir(), 'sheetwave-bench-'));
  try {
    const start = performance.now();
    const ended = spawnSync(process.execPath, ['--import', report, command, ...args], {
      cwd,
      input: input ?? '',
      encoding: 'utf8',
      maxBuffer: 1e9,
      stdio: ['pipe', 'pipe', 'pipe', 'pipe'],
    });
    const wallS = (performance.now() - start) / 1000;
    if (ended.status !== 0) throw new Error(`sheetwave ${args.join(' ')} ended with ${ended.status}:\n${ended.stderr}`);
    return { wallS, ...JSON.parse(ended.output[3]) };
  } finally {
    rmSync(cwd, { recursive: true, force: true });
  }
}

/** Every case once a round, each round beginning with the next case, so that a slow spell does not fall on one case alone. */
export function runRounds(cases, { rounds, said }) {
  const runs = new Map(cases.map(({ name }) => [name, []]));
  for (let round = 0; round < rounds; round += 1) {
    for (let i = 0; i < cases.length; i += 1) {
      const one = cases[(i + round) % cases.length];
      runs.get(one.name).push(runOnce(one));
    }
    said(`round ${round + 1} of ${rounds}`);
  }
  return cases.map((one) => ({ ...one, ...summary(runs.get(one.name)) }));
}

/** More spread than this between the quickest and the median run, as a share of the median: the machine was busy. */
const NOISY = 0.25;

function summary(runs) {
  const wall = runs.map((run) => run.wallS);
  const wallS = median(wall);
  return {
    wallS,
    quickestS: Math.min(...wall),
    cpuS: median(runs.map((run) => run.cpuS)),
    peakMib: Math.max(...runs.map((run) => run.peakMib)),
    spread: Math.max(...wall.map((one) => Math.abs(one - wallS))) / wallS,
    noisy: wall.some((one) => Math.abs(one - wallS) > NOISY * wallS),
  };
}

function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
