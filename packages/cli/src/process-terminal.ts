import { LARGEST_DESIGN_BYTES } from './read-input.ts';
import type { Interruptible, Output, Terminal } from './terminal.ts';

/** The terminal that this process was started in. */
export function processTerminal(): Terminal {
  return {
    stdout: outputOf(process.stdout),
    stderr: outputOf(process.stderr),
    readStdin,
    env: process.env,
    workingFolder: process.cwd(),
    interruptible,
  };
}

function outputOf(stream: NodeJS.WriteStream): Output {
  // Whoever reads us may stop early (a pager, `head`): that is no fault.
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  return { isTerminal: stream.isTTY === true, write: (text) => void stream.write(text) };
}

/** Stops a byte above the largest design: the reader then refuses it by its size. */
async function readStdin(): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  let length = 0;
  for await (const chunk of process.stdin as AsyncIterable<Buffer>) {
    chunks.push(chunk);
    length += chunk.length;
    if (length > LARGEST_DESIGN_BYTES) break;
  }
  return Buffer.concat(chunks);
}

/** The first signal asks the work to stop cleanly; a second one ends the process as usual. */
async function interruptible<T>(work: (signal: AbortSignal) => Promise<T>): Promise<Interruptible<T>> {
  const stop = new AbortController();
  let by: Interruptible<T>['by'];
  const heed = (signal: 'SIGINT' | 'SIGTERM') => {
    by ??= signal;
    stop.abort();
  };
  process.once('SIGINT', heed);
  process.once('SIGTERM', heed);
  try {
    return { value: await work(stop.signal), by };
  } finally {
    process.off('SIGINT', heed);
    process.off('SIGTERM', heed);
  }
}
