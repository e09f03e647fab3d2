import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { PACKAGES, ROOT } from './workspace.ts';

// What a person gets who uses the packages without any of our tools: plain Node, the built files.

const node = (...args: string[]) => execFileSync(process.execPath, args, { cwd: ROOT, encoding: 'utf8' });

describe.each(PACKAGES)('%s', (name) => {
  test('is built', () => {
    expect(existsSync(join(ROOT, 'packages', name, 'dist', 'index.js')), 'run npm run build').toBe(true);
    expect(existsSync(join(ROOT, 'packages', name, 'dist', 'index.d.ts')), 'run npm run build').toBe(true);
  });

  test('loads in plain Node from its built files and exports what its source exports', async () => {
    const script = `
      const loaded = await import('@sheetwave/${name}');
      console.log(JSON.stringify({ from: import.meta.resolve('@sheetwave/${name}'), names: Object.keys(loaded) }));`;
    const built: { from: string; names: string[] } = JSON.parse(node('--input-type=module', '-e', script));
    expect(built.from).toMatch(new RegExp(`/packages/${name}/dist/index\\.js$`));
    const source: object = await import(`@sheetwave/${name}`);
    // The command's package is a program: what it offers is its bin file.
    if (name !== 'cli') expect(built.names).not.toEqual([]);
    expect(built.names.sort(), 'stale? run npm run build').toEqual(Object.keys(source).sort());
  });
});
