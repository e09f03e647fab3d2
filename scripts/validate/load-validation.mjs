import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runnerImport } from 'vite';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** The modules of test/validation, written in TypeScript; the packages they import are the built ones, as Node loads them. */
export async function loadValidation() {
  const config = { root, configFile: false, ssr: { external: true }, logLevel: 'error' };
  const { module } = await runnerImport(join(root, 'test', 'validation', 'index.ts'), config);
  return module;
}
