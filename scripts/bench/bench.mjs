// `npm run bench`               times the command on the first example and on growing arrays, and prints a table
// `npm run bench -- --json`     the same as one JSON object
// `npm run bench -- --rounds 5 --kind rod --largest 8`
// It measures; it judges nothing. Run it on a machine that does nothing else.
import { readFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { KINDS } from './designs.mjs';
import { growth } from './growth.mjs';
import { runRounds } from './measure.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const { values } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    rounds: { type: 'string', default: '3' },
    kind: { type: 'string' },
    largest: { type: 'string', default: '16' },
  },
});

const kinds = values.kind === undefined ? Object.keys(KINDS) : [values.kind];
const sides = [1, 2, 4, 8, 16, 32].filter((side) => side <= Number(values.largest));
const make = ['make', '-', '--out', 'pack'];
const example = readFileSync(join(root, 'examples', 'brass-2x2-5g8', 'design.toml'), 'utf8');
const arrays = kinds.flatMap((kind) =>
  sides.map((side) => ({
    name: `${kind} ${side} x ${side}`,
    kind,
    elements: side * side,
    args: make,
    input: KINDS[kind].design(side),
  })),
);
const cases = [
  { name: 'start-up', args: ['--version'] },
  { name: 'first example', args: make, input: example },
  ...arrays,
];

const loadBefore = loadavg()[0];
const said = values.json ? () => undefined : (text) => process.stderr.write(`${text}\n`);
const rows = runRounds(cases, { rounds: Number(values.rounds), said });
const named = (name) => rows.find((row) => row.name === name);
const growths = Object.fromEntries(kinds.map((kind) => [kind, growth(rows.filter((row) => row.kind === kind))]));
const afterStart = (key) => named('first example')[key] - named('start-up')[key];

if (values.json) {
  const results = rows.map(({ args, input, ...row }) => row);
  const machine = { node: process.version, cores: cpus().length, loadBefore };
  console.log(
    JSON.stringify({
      machine,
      rounds: Number(values.rounds),
      results,
      afterStartS: afterStart('wallS'),
      growth: growths,
    }),
  );
} else {
  printTable();
}

function printTable() {
  console.log(
    `Node ${process.version}, ${cpus().length} cores, load ${loadBefore.toFixed(1)} before; ${values.rounds} rounds, medians`,
  );
  console.log(
    `${'what'.padEnd(18)}${'wall s'.padStart(9)}${'quickest'.padStart(10)}${'cpu s'.padStart(9)}${'peak MiB'.padStart(10)}${'spread'.padStart(9)}`,
  );
  for (const { name, wallS, quickestS, cpuS, peakMib, spread, noisy } of rows) {
    const numbers = `${wallS.toFixed(2).padStart(9)}${quickestS.toFixed(2).padStart(10)}${cpuS.toFixed(2).padStart(9)}${peakMib.toFixed(0).padStart(10)}`;
    console.log(`${name.padEnd(18)}${numbers}${`${(100 * spread).toFixed(0)} %`.padStart(9)}${noisy ? '  noisy' : ''}`);
  }
  console.log(
    `\nfirst example after start-up: ${afterStart('wallS').toFixed(2)} s, quickest ${afterStart('quickestS').toFixed(2)} s (goal: under 2 s)`,
  );
  for (const kind of kinds) {
    const { exponent, ofNLogN, from } = growths[kind];
    const words =
      exponent === undefined
        ? 'too little growth to fit'
        : `elements^${exponent.toFixed(2)} from ${from} elements (n log n there: ${ofNLogN.toFixed(2)})`;
    console.log(`${kind} (${KINDS[kind].title}): processor time grows as ${words}`);
  }
  console.log('goals for 16 x 16 with all files: under 10 s and 500 MiB; growth no faster than n log n');
}
