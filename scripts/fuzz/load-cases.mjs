import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runnerImport } from 'vite';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** A module of test/fuzz, written in TypeScript; the packages it imports are the built ones, as Node loads them. */
export async function loadFromTests(name) {
  const config = { root, configFile: false, ssr: { external: true }, logLevel: 'error' };
  const { module } = await runnerImport(join(root, 'test', 'fuzz', name), config);
  return module;
}
