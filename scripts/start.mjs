// `npm start`: makes the build pack of the first example and says where it is.
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const command = join(root, 'packages', 'cli', 'bin', 'sheetwave.mjs');
const args = ['make', join('examples', 'brass-2x2-5g8', 'design.toml'), '--out', join('packs', 'brass-2x2-5g8')];
const result = spawnSync(process.execPath, [command, ...args, ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
});
process.exit(result.status ?? 1);
