import type { Terminal } from './terminal.ts';

/** What every command gets. */
export interface Context {
  readonly terminal: Terminal;
  readonly operand: string | undefined;
  /** All of them, the first one included. */
  readonly operands: readonly string[];
  readonly switches: ReadonlySet<string>;
  readonly values: ReadonlyMap<string, string>;
  /** Values of options that may stand more than once, in order. */
  readonly lists: ReadonlyMap<string, readonly string[]>;
  readonly version: string;
  /** A message for the user on standard error; silent with `--json`. */
  readonly say: (text: string) => void;
  /** True with `--json`. */
  readonly isQuiet: boolean;
}
