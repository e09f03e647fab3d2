// Judges one case after the other for fuzz.mjs, in a process of its own that may be ended when a case takes too long.
import { loadFromTests } from './load-cases.mjs';

const { caseOf } = await loadFromTests('fuzz-case.ts');
const { judge } = await loadFromTests('judge.ts');

process.on('message', async (seed) => {
  const before = process.cpuUsage();
  const one = caseOf(seed);
  const verdict = await judge(one);
  process.send({
    seed,
    kind: one.kind,
    cpuMs: cpuSince(before),
    peakMib: process.resourceUsage().maxRSS / 1024,
    ...verdict,
  });
});
process.send('ready');

/** Processor time, which a busy machine does not lengthen as much as the time on the clock. */
function cpuSince(before) {
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}
