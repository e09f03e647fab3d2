import type { Control } from './control.ts';
import type { Code } from './emit/code.ts';
import { FunctionWriter, type Local } from './emit/function-writer.ts';
import { atomic, call, drop, i32, trap, when, whileLoop } from './emit/instructions.ts';
import type { ModuleWriter } from './emit/module-writer.ts';

/** Looks at a word so often before sleeping: some tens of microseconds. */
const SPINS = 20_000;
/** Sleepers look up this often, in case another thread has failed. */
const SLEEP_NANOSECONDS = 50_000_000;

/** Functions by which threads wait for each other: spin for a short while, then sleep. */
export interface Waiting {
  /** Code that waits until the word at an address is at least a value. */
  readonly atLeast: (address: Code, value: Code) => Code;
  /** Code that writes a word and wakes who sleeps for it. */
  readonly raise: (address: Local, value: Code) => Code;
  /** Code that waits until all threads are here. */
  readonly barrier: Code;
}

export function addWaiting(module: ModuleWriter, control: Control, threads: number): Waiting {
  const atLeastIndex = module.add(atLeastFunction(control));
  const atLeast = (address: Code, value: Code) => call(atLeastIndex, address, value);
  const raise = (address: Local, value: Code): Code => [
    atomic.store(address.get, value),
    when(atomic.load(i32.of(control.sleepers)), drop(atomic.wakeAll(address.get))),
  ];
  const barrierIndex = module.add(barrierFunction(control, threads, { atLeast, raise }));
  return { atLeast, raise, barrier: call(barrierIndex) };
}

function atLeastFunction(control: Control) {
  const writer = new FunctionWriter(2);
  const [address, value] = [writer.parameter(0), writer.parameter(1)];
  const [spins, seen] = [writer.local('i32'), writer.local('i32')];
  const isTooLow = i32.lessSigned(seen.tee(atomic.load(address.get)), value.get);
  const sleepers = i32.of(control.sleepers);
  const sleep = [
    drop(atomic.add(sleepers, i32.of(1))),
    when(isTooLow, drop(atomic.wait(address.get, seen.get, { offset: 0, nanoseconds: SLEEP_NANOSECONDS }))),
    drop(atomic.add(sleepers, i32.of(-1))),
    when(atomic.load(i32.of(control.failed)), trap),
  ];
  return writer.finish(whileLoop(isTooLow, when(i32.lessSigned(spins.get, i32.of(SPINS)), spins.increase(1), sleep)));
}

function barrierFunction(control: Control, threads: number, { atLeast, raise }: Pick<Waiting, 'atLeast' | 'raise'>) {
  const writer = new FunctionWriter(0);
  const [passed, address] = [writer.local('i32'), writer.local('i32')];
  const arrivedBefore = atomic.add(i32.of(control.barrier), i32.of(1));
  return writer.finish([
    address.set(i32.of(control.passed)),
    passed.set(atomic.load(address.get)),
    passed.increase(1),
    when(
      i32.equal(arrivedBefore, i32.of(threads - 1)),
      [atomic.store(i32.of(control.barrier), i32.of(0)), raise(address, passed.get)],
      atLeast(address.get, passed.get),
    ),
  ]);
}
