import type { KernelInput } from '../../kernel.ts';
import { airRows } from './air-rows.ts';
import { type Control, planControl } from './control.ts';
import { FunctionWriter } from './emit/function-writer.ts';
import { atomic, i32 } from './emit/instructions.ts';
import { ModuleWriter } from './emit/module-writer.ts';
import { memoryOf, pagesOf } from './memory.ts';
import { addPlaneFunctions } from './plane-function.ts';
import type { KernelOptions } from './row-terms.ts';
import type { Schedule } from './schedule.ts';
import { advanceFunction, tileCount } from './schedules.ts';
import { addWaiting, type Waiting } from './waiting.ts';

export interface EmitRequest {
  readonly input: KernelInput;
  readonly schedule: Schedule;
  readonly threads: number;
  readonly options: KernelOptions;
}

export interface EmittedKernel {
  readonly bytes: Uint8Array;
  readonly control: Control;
}

/**
 * Writes the module of one grid. It exports `advance(thread, steps)`, and with several threads `command(seen)`, which
 * waits for command number seen + 1 and returns its steps.
 *
 * @throws RangeError where the kernel's own words do not fit behind the layout.
 */
export function emitKernel({ input, schedule, threads, options }: EmitRequest): EmittedKernel {
  const { layout } = input;
  const pages = pagesOf(memoryOf(input.buffer));
  const tiles = schedule.kind === 'blocked' ? tileCount(layout.shape.ny, schedule) : 0;
  const control = planControl(layout, tiles);
  if (control.end > input.buffer.byteLength) throw new RangeError('The grid has too many rows for the fast kernel.');
  const module = new ModuleWriter({ pages, isShared: threads > 1 || isShared(input) });
  const planes = addPlaneFunctions(module, { input, options, ones: control.ones, air: airRows(input) });
  const waiting = threads > 1 ? addWaiting(module, control, threads) : undefined;
  const request = { shape: layout.shape, schedule, planes, control, threads };
  module.add(advanceFunction(waiting ? { ...request, waiting } : request), { exportAs: 'advance' });
  if (waiting) addCommand(module, { control, waiting, owner: takeOver(input, control) });
  return { bytes: module.bytes(), control };
}

const isShared = ({ buffer }: KernelInput) => !(buffer instanceof ArrayBuffer);

/** Makes workers of a kernel made earlier on the same memory end, should one still be there. Gives the new owner's number. */
function takeOver({ buffer }: KernelInput, control: Control): number {
  return Atomics.add(new Int32Array(buffer), control.owner / 4, 1) + 1;
}

function addCommand(
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
