import type { Output } from './terminal.ts';

const CELLS = 24;
/** Between two lines where there is no terminal, s. */
const QUIET_SECONDS = 10;
/** Between two looks of the same line on a terminal, s. */
const REDRAW_SECONDS = 0.1;

/**
 * How far some work has got, on one line that is drawn over on a terminal, and as a line now and then elsewhere. Time comes from
 * outside, in seconds. The share never goes back: what is left is a guess that gets better.
 */
export class ProgressLine {
  readonly #output: Output;
  readonly #now: () => number;
  readonly #started: number;
  #shownAt = Number.NEGATIVE_INFINITY;
  #share = 0;
  #width = 0;

  constructor(output: Output, now: () => number) {
    this.#output = output;
    this.#now = now;
    this.#started = now();
    if (!output.isTerminal) this.#shownAt = this.#started;
  }
  /** `share` is the part of the work that is done, 0 to 1. */
  show(share: number, what: string): void {
    this.#share = Math.max(this.#share, Math.min(1, share));
    const now = this.#now();
    if (now - this.#shownAt < (this.#output.isTerminal ? REDRAW_SECONDS : QUIET_SECONDS)) return;
    this.#shownAt = now;
    const text = `${what}: ${this.#text(now - this.#started)}`;
    this.#output.write(this.#output.isTerminal ? `\r${text.padEnd(this.#width)}` : `${text}\n`);
    this.#width = text.length;
  }
  /** Takes the line off a terminal again. */
  clear(): void {
    if (this.#output.isTerminal && this.#width > 0) this.#output.write(`\r${' '.repeat(this.#width)}\r`);
    this.#width = 0;
  }
  #text(elapsed: number): string {
    const done = Math.floor(this.#share * 100);
    const left = this.#share > 0.02 && elapsed > 0.5 ? (elapsed / this.#share) * (1 - this.#share) : undefined;
    const time = left === undefined ? '' : `, about ${timeText(left)} left`;
    if (!this.#output.isTerminal) return `${done} % done${time}`;
    const full = Math.round(this.#share * CELLS);
    return `${'\u2588'.repeat(full)}${'\u2591'.repeat(CELLS - full)} ${String(done).padStart(3)} %${time}`;
  }
}

/** A time as people say it: `less than a second`, `12 s`, `3 min`, `1 h 20 min`. */
export function timeText(seconds: number): string {
  if (seconds < 1) return 'a second';
  if (seconds < 99.5) return `${Math.round(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
