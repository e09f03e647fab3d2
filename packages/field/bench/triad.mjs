import { addCommand, takeOver } from '../dist/kernels/simd/command.js';
import { planControl } from '../dist/kernels/simd/control.js';
import { FunctionWriter } from '../dist/kernels/simd/emit/function-writer.js';
import { doWhile, f32, f32x4, i32, whileLoop } from '../dist/kernels/simd/emit/instructions.js';
import { ModuleWriter } from '../dist/kernels/simd/emit/module-writer.js';
import { memoryOf, pagesOf, wasmMemory } from '../dist/kernels/simd/memory.js';
import { addWaiting } from '../dist/kernels/simd/waiting.js';
import { Crew } from '../dist/kernels/threads/crew.js';
import { nodeHost } from '../dist/node.js';

const VECTORS = 4;
const CHUNK = 16 * VECTORS;

/**
 * a = b + s c over three arrays that fill so many bytes together: what the memory gives WebAssembly, by the same number of
 * threads, started in the same way as the kernel's. `advance(n)` makes n passes.
 */
export async function triad(bytes, threads) {
  const share = Math.floor(bytes / 3 / threads / CHUNK) * CHUNK;
  const arrayBytes = share * threads;
  const buffer = wasmMemory({ isShared: true })(3 * arrayBytes);
  new Float32Array(buffer, 0, (3 * arrayBytes) / 4).fill(1);
  const control = planControl({ end: (3 * arrayBytes) / 4, shape: { sx: 0 } }, 0);
  const memory = memoryOf(buffer);
  const writer = new ModuleWriter({ pages: pagesOf(memory), isShared: true });
  const waiting = addWaiting(writer, control, threads);
  writer.add(passes({ share, arrayBytes, barrier: threads > 1 ? waiting.barrier : [] }), { exportAs: 'advance' });
  addCommand(writer, { control, waiting, owner: takeOver(buffer, control) });
  const module = new WebAssembly.Module(writer.bytes());
  const others = Array.from({ length: threads - 1 }, (_, index) => index + 1);
  const crew = await Crew.start({ host: nodeHost(), module, memory, control, threads: others, reports: false });
  const { advance } = new WebAssembly.Instance(module, { env: { memory } }).exports;
  return {
    bytesOfPass: 3 * arrayBytes,
    advance(count) {
      crew.command(count);
      advance(0, count);
    },
    close: () => crew.end(),
  };
}

/** A function of (thread, passes). */
function passes({ share, arrayBytes, barrier }) {
  const writer = new FunctionWriter(2);
  const [thread, count] = [writer.parameter(0), writer.parameter(1)];
  const [at, end, done] = [0, 1, 2].map(() => writer.local('i32'));
  const factor = writer.local('v128');
  const vector = (shift) => {
    const [b, c] = [1, 2].map((array) => f32x4.load(at.get, array * arrayBytes + shift));
    return f32x4.store(at.get, f32x4.add(b, f32x4.mul(factor.get, c)), shift);
  };
  const body = Array.from({ length: VECTORS }, (_, index) => vector(16 * index));
  return writer.finish([
    factor.set(f32x4.splat(f32.of(0.5))),
    whileLoop(i32.lessSigned(done.get, count.get), [
      at.set(i32.mul(thread.get, i32.of(share))),
      end.set(i32.add(at.get, i32.of(share))),
      doWhile([body, at.increase(CHUNK)], i32.lessUnsigned(at.get, end.get)),
      done.increase(1),
    ]),
    barrier,
  ]);
}
