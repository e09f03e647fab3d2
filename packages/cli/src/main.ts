import { readFileSync } from 'node:fs';
import { processTerminal } from './process-terminal.ts';
import { run } from './run.ts';

const about = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8')) as { version: string };
process.exitCode = await run(process.argv.slice(2), processTerminal(), about.version);
