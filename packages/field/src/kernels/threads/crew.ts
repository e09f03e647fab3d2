import type { Control } from '../simd/control.ts';
import type { WasmMemory, WasmModule } from '../simd/web-assembly.ts';
import type { Host, HostWorker } from './host.ts';
import { type Assignment, DONE, READY, WORKER_SCRIPT } from './worker-script.ts';

export interface CrewRequest {
  readonly host: Host;
  readonly module: WasmModule;
  readonly memory: WasmMemory;
  readonly control: Control;
  readonly threads: readonly number[];
  /** Whether the first of the threads tells the end of each batch. */
  readonly reports: boolean;
}

/**
 * The workers of one kernel.
 * 1. While no batch runs, every worker waits for the next command number.
 * 2. A batch ends in a barrier of all threads, so no worker can miss a command.
 * 3. A worker that fails sets the word `failed`; whoever waits for it then stops as well.
 */
export class Crew {
  private readonly words: Int32Array;
  private readonly control: Control;
  private readonly workers: readonly HostWorker[];
  private onEnd: ((failure?: Error) => void) | undefined;

  private constructor(request: CrewRequest) {
    this.control = request.control;
    this.words = new Int32Array(request.memory.buffer);
    this.workers = request.threads.map(() => request.host.startWorker(WORKER_SCRIPT));
  }

  /** Resolves when all workers wait for their first command. */
  static async start(request: CrewRequest): Promise<Crew> {
    const crew = new Crew(request);
    try {
      await Promise.all(request.threads.map((thread, index) => crew.assign(request, thread, index)));
    } catch (error) {
      crew.end();
      throw error;
    }
    for (const worker of crew.workers) worker.release();
    return crew;
  }

  private assign({ module, memory, control, reports }: CrewRequest, thread: number, index: number): Promise<void> {
    const worker = this.workers[index] as HostWorker;
    const seen = Atomics.load(this.words, control.generation / 4);
    const assignment: Assignment = {
      module,
      memory,
      thread,
      seen,
      failed: control.failed,
      reports: reports && index === 0,
    };
    return new Promise((resolve, reject) => {
      const fail = (reason: unknown) => {
        const failure = new Error(`A worker of the field kernel has failed: ${reason}`);
        reject(failure);
        this.onEnd?.(failure);
      };
      worker.onFailure(fail);
      worker.onMessage((message) => {
        if (message === READY) resolve();
        else if (message === DONE) this.onEnd?.();
        else fail(message);
      });
      worker.post(assignment);
    });
  }

  /** Starts the workers on a batch. */
  command(steps: number): void {
    const { control, words } = this;
    words.fill(0, control.progress / 4, control.end / 4);
    Atomics.store(words, control.jobs / 4, 0);
    this.send(steps);
  }

  private send(steps: number): void {
    const { control, words } = this;
    Atomics.store(words, control.steps / 4, steps);
    Atomics.add(words, control.generation / 4, 1);
    Atomics.notify(words, control.generation / 4);
  }

  /** Resolves at the end of the batch that was just commanded. */
  batchEnd(): Promise<void> {
    return new Promise((resolve, reject) => {
      this.onEnd = (failure) => {
        this.onEnd = undefined;
        if (failure) reject(failure);
        else resolve();
      };
    });
  }

  /** Ends all workers, in the middle of a batch too. A pending `batchEnd` is rejected with the reason. */
  end(reason: Error = new Error('The kernel was closed.')): void {
    this.send(0);
    for (const worker of this.workers) worker.end();
    this.onEnd?.(reason);
  }
}
