// `npm run fuzz`                           random designs and drawings for a minute; prints the seed of every failure
// `npm run fuzz -- --seed 7 --count 500`   500 cases from seed 7, the same every time
// `npm run fuzz -- --show 12345`           prints the design and the drawings of one seed, and what becomes of it
// The contract: every input gives a pack whose files can all be read, or clear findings, within the limits of time and memory.
import { fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { loadFromTests } from './load-cases.mjs';

const { values } = parseArgs({
  options: {
    seed: { type: 'string' },
    count: { type: 'string' },
    seconds: { type: 'string' },
    workers: { type: 'string' },
    'limit-seconds': { type: 'string', default: '120' },
    show: { type: 'string' },
  },
});

/** Heap of one worker in MiB: several times what the largest array takes. */
const HEAP_MIB = 700;
const limitMs = 1000 * Number(values['limit-seconds']);

if (values.show !== undefined) await show(Number(values.show));
else await run();

async function show(seed) {
  const one = (await loadFromTests('fuzz-case.ts')).caseOf(seed);
  process.stdout.write(`# seed ${seed}: ${one.kind}\n${one.designText}`);
  for (const { name, text } of one.drawings) process.stdout.write(`\n# ${name}\n${text}`);
  const verdict = await (await loadFromTests('judge.ts')).judge(one);
  process.stdout.write(`\n# ${verdict.outcome}${verdict.what === undefined ? '' : `: ${verdict.what}`}\n`);
}

async function run() {
  const first = values.seed === undefined ? Math.floor(Date.now() / 1000) * 1000 : Number(values.seed) * 1_000_000;
  const count = values.count === undefined ? Number.POSITIVE_INFINITY : Number(values.count);
  const seconds = values.seconds ?? (values.count === undefined ? 60 : Number.POSITIVE_INFINITY);
  const deadline = performance.now() + 1000 * Number(seconds);
  const tally = { pack: 0, findings: 0, fault: 0 };
  const all = { next: 0, slowestMs: 0, slowestSeed: undefined, peakMib: 0, tally };
  const nextSeed = () => (all.next < count && performance.now() < deadline ? first + all.next++ : undefined);
  const workers = Number(values.workers ?? Math.max(1, availableParallelism()));
  await Promise.all(Array.from({ length: workers }, () => work(nextSeed, (result) => note(all, result))));
  const { pack, findings, fault } = tally;
  console.log(
    `${all.next} cases from seed ${first}: ${pack} packs, ${findings} refused with findings, ${fault} failures`,
  );
  console.log(
    `slowest ${(all.slowestMs / 1000).toFixed(1)} s of processor time, made twice (seed ${all.slowestSeed}); most memory of a worker ${all.peakMib.toFixed(0)} MiB`,
  );
  process.exitCode = fault > 0 ? 1 : 0;
}

function note(all, { seed, kind, outcome, what, cpuMs, peakMib }) {
  all.tally[outcome] += 1;
  if (cpuMs > all.slowestMs) Object.assign(all, { slowestMs: cpuMs, slowestSeed: seed });
  all.peakMib = Math.max(all.peakMib, peakMib);
  if (outcome !== 'fault') return;
  console.log(`seed ${seed} (${kind}): ${what}`);
  console.log(`  to repeat it: npm run fuzz -- --show ${seed}`);
}

/** Hands out cases to one worker after the other: a worker that takes too long or dies is a failure, and is replaced. */
async function work(nextSeed, told) {
  let worker;
  for (let seed = nextSeed(); seed !== undefined; seed = nextSeed()) {
    worker ??= await startWorker();
    let result = await ask(worker, seed);
    // A worker ends by itself in other ways: this signal came from outside, and says nothing of the case.
    for (let again = 0; result.signal === 'SIGTERM' && again < 20; again += 1) {
      worker = await startWorker();
      result = await ask(worker, seed);
    }
    told(result);
    if (result.lost) {
      worker.kill('SIGKILL');
      worker = undefined;
    }
  }
  worker?.kill();
}

function startWorker() {
  const file = join(dirname(fileURLToPath(import.meta.url)), 'worker.mjs');
  const worker = fork(file, { execArgv: [`--max-old-space-size=${HEAP_MIB}`] });
  return new Promise((resolve, reject) => {
    worker.once('message', () => resolve(worker));
    worker.once('exit', (code) => reject(new Error(`a worker ended before it began, with ${code}`)));
  });
}

function ask(worker, seed) {
  const lost = (what, signal) => ({
    seed,
    kind: 'lost',
    outcome: 'fault',
    what,
    cpuMs: 0,
    peakMib: 0,
    lost: true,
    signal,
  });
  return new Promise((resolve) => {
    const timer = setTimeout(() => done(lost(`no answer within ${limitMs / 1000} s`)), limitMs);
    const answered = (result) => done(result);
    const ended = (code, signal) => done(lost(`the worker died: ${signal ?? code}`, signal));
    const done = (result) => {
      clearTimeout(timer);
      worker.off('message', answered).off('exit', ended);
      resolve(result);
    };
    worker.on('message', answered).on('exit', ended);
    worker.send(seed);
  });
}
