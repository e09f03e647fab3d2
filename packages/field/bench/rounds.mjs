/** Share of the processor time that a thread must have got while it was timed; less, and others were in the way. */
const LEAST_SHARE = 0.93;

/**
 * Times all items in turn, round after round, so that whatever slows the machine slows all of them.
 *
 * An item has a `name`, `threads`, the amount of `work` of one run, and `run()`; `prepare()`, if there, runs untimed before. The result holds, for each name, the best
 * rate of work per second of the undisturbed runs. Where every run was disturbed, the best of all, marked as `noisy`.
 */
export async function timeRounds(items, rounds) {
  const samples = new Map(items.map(({ name }) => [name, []]));
  for (const item of items) await timeOnce(item);
  for (let round = 0; round < rounds; round++) {
    for (const item of items) samples.get(item.name).push(await timeOnce(item));
  }
  return Object.fromEntries([...samples].map(([name, all]) => [name, best(all)]));
}

export async function timeOnce({ prepare, run, work, threads }) {
  await prepare?.();
  const before = process.cpuUsage();
  const start = performance.now();
  await run();
  const seconds = (performance.now() - start) / 1e3;
  const { user, system } = process.cpuUsage(before);
  const share = (user + system) / 1e6 / (seconds * threads);
  return { rate: work / seconds, isQuiet: share >= LEAST_SHARE };
}

export function best(samples) {
  const quiet = samples.filter(({ isQuiet }) => isQuiet);
  const used = quiet.length > 0 ? quiet : samples;
  return {
    rate: Math.max(...used.map(({ rate }) => rate)),
    noisy: quiet.length === 0,
    rejected: samples.length - quiet.length,
    rounds: samples.length,
  };
}
