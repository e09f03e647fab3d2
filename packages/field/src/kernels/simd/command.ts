import type { Control } from './control.ts';
import { FunctionWriter } from './emit/function-writer.ts';
import { atomic, i32 } from './emit/instructions.ts';
import type { ModuleWriter } from './emit/module-writer.ts';
import type { Waiting } from './waiting.ts';

/** Makes workers of a kernel made earlier on the same memory end, should one still be there. Gives the new owner's number. */
export function takeOver(buffer: ArrayBufferLike, control: Control): number {
  return Atomics.add(new Int32Array(buffer), control.owner / 4, 1) + 1;
}

/** Adds the function of (seen) that waits for command number seen + 1 and gives its steps. */
export function addCommand(
  module: ModuleWriter,
  { control, waiting, owner }: { control: Control; waiting: Waiting; owner: number },
): void {
  const writer = new FunctionWriter(1);
  const next = i32.add(writer.parameter(0).get, i32.of(1));
  const isOurs = i32.equal(atomic.load(i32.of(control.owner)), i32.of(owner));
  const body = writer.finish([
    waiting.atLeast(i32.of(control.generation), next),
    i32.select(atomic.load(i32.of(control.steps)), i32.of(0), isOurs),
  ]);
  module.add(body, { exportAs: 'command', hasResult: true });
}
