/** Where a command reads and writes. The process's own streams outside tests. */
export interface Terminal {
  readonly stdout: Output;
  readonly stderr: Output;
  /** All of standard input. */
  readonly readStdin: () => Promise<Uint8Array>;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly workingFolder: string;
  /** Runs some work with a signal that is aborted when the user interrupts. */
  readonly interruptible: <T>(work: (signal: AbortSignal) => Promise<T>) => Promise<Interruptible<T>>;
}

export interface Interruptible<T> {
  readonly value: T;
  /** The signal that came while the work was done, if any. */
  readonly by: 'SIGINT' | 'SIGTERM' | undefined;
}

export interface Output {
  readonly isTerminal: boolean;
  readonly write: (text: string) => void;
}

/**
 * Text of a stranger for a terminal: control and formatting characters, which could move the cursor, recolour the
 * screen or turn the reading direction, become visible escapes. Line breaks become `\n` too unless `keepLines`.
 */
export function visible(text: string, keepLines = false): string {
  return text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu, (char) =>
    keepLines && char === '\n' ? char : escapeOf(char),
  );
}

function escapeOf(char: string): string {
  const named = { '\n': '\\n', '\r': '\\r', '\t': '\\t' }[char];
  return named ?? `\\u{${(char.codePointAt(0) ?? 0).toString(16)}}`;
}

export type Paint = 'error' | 'warning' | 'note' | 'good';
const CODES: Readonly<Record<Paint, number>> = { error: 31, warning: 33, note: 36, good: 32 };

/**
 * Colours a word on a terminal, never in a file or a pipe. `NO_COLOR` with any value but '' turns it off
 * (source: the NO_COLOR convention; memory).
 */
export function paint(word: string, colour: Paint, to: { output: Output; env: Terminal['env'] }): string {
  const off = !to.output.isTerminal || (to.env.NO_COLOR ?? '') !== '' || to.env.TERM === 'dumb';
  return off ? word : `\u001b[${CODES[colour]}m${word}\u001b[0m`;
}
