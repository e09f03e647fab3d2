import type { KernelInput } from '../../kernel.ts';
import { airRows } from './air-rows.ts';
import { addCommand, takeOver } from './command.ts';
import { type Control, planControl } from './control.ts';
import { ModuleWriter } from './emit/module-writer.ts';
import { memoryOf, pagesOf } from './memory.ts';
import { addPlaneFunctions } from './plane-function.ts';
import type { KernelOptions } from './row-terms.ts';
import type { Schedule } from './schedule.ts';
import { advanceFunction, tileCount } from './schedules.ts';
import { addWaiting } from './waiting.ts';

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
  const sharers = schedule.kind === 'blocked' ? tileCount(layout.shape.ny, schedule) : threads;
  const control = planControl(layout, sharers);
  if (control.end > input.buffer.byteLength) throw new RangeError('The grid has too many rows for the fast kernel.');
  const module = new ModuleWriter({ pages, isShared: threads > 1 || isShared(input) });
  const planes = addPlaneFunctions(module, { input, options, ones: control.ones, air: airRows(input) });
  const waiting = threads > 1 ? addWaiting(module, control, threads) : undefined;
  const request = { shape: layout.shape, schedule, planes, control, threads };
  module.add(advanceFunction(waiting ? { ...request, waiting } : request), { exportAs: 'advance' });
  if (waiting) addCommand(module, { control, waiting, owner: takeOver(input.buffer, control) });
  return { bytes: module.bytes(), control };
}

const isShared = ({ buffer }: KernelInput) => !(buffer instanceof ArrayBuffer);
