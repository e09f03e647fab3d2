import { spawnSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { ROOT, readManifest } from './workspace.ts';

const npx = process.platform === 'win32' ? 'npx.cmd' : 'npx';

test('npx sheetwave --version says the version of the package that holds the command', () => {
  const ended = spawnSync(npx, ['--no-install', 'sheetwave', '--version'], { cwd: ROOT, encoding: 'utf8' });
  expect(ended.stderr).toBe('');
  expect(ended.stdout.trim().split(/\s+/).at(-1)).toBe(readManifest('packages/cli').version);
  expect(ended.status).toBe(0);
});
