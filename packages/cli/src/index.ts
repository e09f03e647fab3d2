export { run } from './run.ts';
export type { Output, Terminal } from './terminal.ts';
