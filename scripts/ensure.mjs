// Installs what the lock file names when it is not there yet, so that one command is enough in a fresh clone.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`sheetwave needs Node 20.19 or newer; this is Node ${process.versions.node}.`);
  process.exit(1);
}

const lock = join(root, 'package-lock.json');
const stamp = join(root, 'node_modules', '.package-lock.json');
const upToDate = existsSync(stamp) && statSync(stamp).mtimeMs >= statSync(lock).mtimeMs;
if (!upToDate) {
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const result = spawnSync(npm, ['ci', '--no-audit', '--no-fund'], {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  if (result.status !== 0) process.exit(result.status ?? 1);
}
