import { readFileSync } from 'node:fs';

/** The version of this package: all packages bear the same, so that it is the solver's too. */
export function solverVersion(): string {
  const about = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8')) as { version: string };
  return about.version;
}
