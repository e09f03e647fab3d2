/** A worker of the host, as far as the kernels need one. */
export interface HostWorker {
  post(message: unknown): void;
  onMessage(listener: (message: unknown) => void): void;
  onFailure(listener: (reason: unknown) => void): void;
  /** From now on the worker does not keep the process alive, where the host has processes. */
  release(): void;
  end(): void;
}

/** What the threaded kernel needs of its surroundings: Node and browsers differ only here. */
export interface Host {
  /** Threads that run at the same time. */
  readonly processors: number;
  /** Whether the calling thread may sleep: not so the one that draws a page. */
  readonly maySleep: boolean;
  /** Lets what waits in the event loop have its turn: timers, messages, a signal that ends a run. */
  pause(): Promise<void>;
  /** Starts a worker from the text of a script in which `port` is its end of the line and `serve` hears the first message. */
  startWorker(script: string): HostWorker;
}
