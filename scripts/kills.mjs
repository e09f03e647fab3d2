// `npm run kills`                          ends the command, the writing of packs and the build log at 200 random instants each
// `npm run kills -- --count 50 --seed 7`   the same instants every time, as far as the machine keeps time
// After each the earlier pack or the new one must be there, whole: test/main-job/interrupted.test.ts, with more rounds than in `npm test`.
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const { values } = parseArgs({
  options: { count: { type: 'string', default: '200' }, seed: { type: 'string', default: '1' } },
});
const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
const args = [
  vitest,
  'run',
  '--project',
  'source',
  '--reporter=dot',
  '--testTimeout=0',
  'test/main-job/interrupted.test.ts',
  'test/main-job/log-interrupted.test.ts',
];
const env = { ...process.env, SHEETWAVE_KILLS: values.count, SHEETWAVE_KILLS_SEED: values.seed };
console.log(`${values.count} kills of each kind from seed ${values.seed}`);
const run = spawnSync(process.execPath, args, { cwd: root, env, stdio: 'inherit' });
process.exit(run.status ?? 1);
