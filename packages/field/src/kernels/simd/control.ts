import type { Layout } from '../../kernel.ts';

/**
 * Byte addresses of the kernel's own words, behind the layout. Each word that threads share has a cache line of its own.
 *
 * 1. `generation` counts commands; it is raised after `steps` was written. Steps of 0 end a worker, and so does a command
 *    when `owner`, the number of the kernel made last on this memory, is another.
 * 2. `barrier` counts who has arrived, `passed` how many barriers were passed.
 * 3. `jobs` counts the tiles handed out in this batch; `progress` holds two words for each tile or slab, which say
 *    how far it has come. Both are cleared before a batch is started, while all workers wait.
 * 4. `sleepers` counts threads that may sleep: who raises a word wakes others only then.
 * 5. `failed` is set when a worker has failed; whoever waits then stops too.
 */
export interface Control {
  readonly ones: number;
  readonly generation: number;
  readonly steps: number;
  readonly owner: number;
  readonly barrier: number;
  readonly passed: number;
  readonly jobs: number;
  readonly sleepers: number;
  readonly failed: number;
  readonly progress: number;
  /** End of the progress words. */
  readonly end: number;
}

export const LINE = 64;
const alignUp = (value: number) => Math.ceil(value / LINE) * LINE;

export function planControl(layout: Layout, sharers: number): Control {
  const ones = alignUp(4 * layout.end);
  const words = alignUp(ones + 4 * layout.shape.sx);
  const line = (index: number) => words + index * LINE;
  return {
    ones,
    generation: line(0),
    steps: line(1),
    owner: line(2),
    barrier: line(3),
    passed: line(4),
    jobs: line(5),
    sleepers: line(6),
    failed: line(7),
    progress: line(8),
    end: line(8 + 2 * sharers),
  };
}
