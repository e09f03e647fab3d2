import type { OptionSpec } from './commands.ts';

/** Options that say which cable is still in a sweep. */
export const CABLE_OPTIONS: readonly OptionSpec[] = [
  { name: 'cable', value: 'DELAY', help: 'one-way delay of a cable still in the sweep, or fit' },
  { name: 'cable-loss', value: 'DB', help: 'its one-way loss at the middle of the band' },
  { name: 'cable-open', value: 'FILE', help: 'find both from a sweep of its end left open' },
  { name: 'cable-short', value: 'FILE', help: 'the same with its end shorted' },
];

/** Options of the commands that draw diagrams. */
export const PLOT_OPTIONS: readonly OptionSpec[] = [
  { name: 'plots', value: 'DIR', help: 'draw the diagrams as SVG into this folder' },
  { name: 'force', help: 'replace diagrams that are there already' },
];
