// Speed and memory of the field solver, as ratios measured in one run. See `--help`.
import { cpus, loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { coreRows } from './core-rows.mjs';
import { printTable } from './print.mjs';
import { solverRows } from './solver-rows.mjs';

const HELP = `npm run bench:field -- [--json] [--rounds N] [--only core|solver]

  --json      one JSON object instead of the table
  --rounds N  rounds of measurement, default 7
  --only P    the rows of the kernel alone (core), or of the whole solver

All speeds of a row come from the same run, taken in turn. A measurement in which this process did not get its share of
the processors is rejected; a row marked "noisy" had no other.`;

const { values } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
    rounds: { type: 'string', default: '7' },
    only: { type: 'string' },
  },
});
if (values.help) {
  console.log(HELP);
  process.exit(0);
}

const rounds = Number(values.rounds);
if (!(Number.isInteger(rounds) && rounds > 0))
  throw new RangeError(`--rounds must be a whole number, got ${values.rounds}`);
const note = (text) => process.stderr.write(`${text}\n`);
const loadBefore = loadavg()[0];
const rows = [
  ...(values.only === 'solver' ? [] : await coreRows({ rounds, note })),
  ...(values.only === 'core' ? [] : await solverRows({ rounds, note })),
];
const machine = {
  processor: cpus()[0]?.model ?? 'unknown',
  processors: cpus().length,
  node: process.version,
  load: [loadBefore, loadavg()[0]],
};
if (values.json) console.log(JSON.stringify({ machine, rows }, null, 2));
else printTable(machine, rows);
process.exit(0);
