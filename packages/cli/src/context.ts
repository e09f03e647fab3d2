import type { Terminal } from './terminal.ts';

/** What every command gets. */
export interface Context {
  readonly terminal: Terminal;
  readonly operand: string | undefined;
  readonly switches: ReadonlySet<string>;
  readonly values: ReadonlyMap<string, string>;
  readonly version: string;
  /** A message for the user on standard error; silent with `--json`. */
  readonly say: (text: string) => void;
}
