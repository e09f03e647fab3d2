// Builds what has changed. The build tool's usage reports and update notices are switched off: a build stays offline.
import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const quiet = { TURBO_TELEMETRY_DISABLED: '1', DO_NOT_TRACK: '1', TURBO_NO_UPDATE_NOTIFIER: '1' };
const require = createRequire(import.meta.url);
const turbo = require.resolve('turbo/bin/turbo');
const args = [turbo, 'run', 'build', '--output-logs=errors-only', ...process.argv.slice(2)];
const result = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8', env: { ...process.env, ...quiet } });
// What the tool says is worth reading only when something is wrong.
if (result.status !== 0) process.stderr.write(`${result.stdout}${result.stderr}`);
process.exit(result.status ?? 1);
