import { describe, expect, test } from 'vitest';
import { flatten, float32, signed, text, unsigned, vector } from './code.ts';
import { FunctionWriter } from './function-writer.ts';
import { i32 } from './instructions.ts';
import { ModuleWriter } from './module-writer.ts';

describe('the binary format', () => {
  // DWARF Debugging Information Format 4, 7.6, figures 22 and 23: the examples of LEB128 (confirmed).
  test('unsigned integers', () => {
    expect(flatten(unsigned(2))).toEqual([2]);
    expect(flatten(unsigned(127))).toEqual([127]);
    expect(flatten(unsigned(128))).toEqual([0x80, 1]);
    expect(flatten(unsigned(129))).toEqual([0x81, 1]);
    expect(flatten(unsigned(12857))).toEqual([57 + 0x80, 100]);
  });

  test('unsigned integers up to 32 bits', () => {
    expect(flatten(unsigned(2 ** 32 - 1))).toEqual([0xff, 0xff, 0xff, 0xff, 0x0f]);
  });

  test('signed integers', () => {
    expect(flatten(signed(2))).toEqual([2]);
    expect(flatten(signed(-2))).toEqual([0x7e]);
    expect(flatten(signed(127))).toEqual([127 + 0x80, 0]);
    expect(flatten(signed(-127))).toEqual([1 + 0x80, 0x7f]);
    expect(flatten(signed(128))).toEqual([0x80, 1]);
    expect(flatten(signed(-128))).toEqual([0x80, 0x7f]);
  });

  // WebAssembly Core Specification 2.0, 5.1.3 (vectors), 5.2.3 (numbers, IEEE 754, lowest byte first), 5.2.4 (names).
  test('lists, names and numbers', () => {
    expect(flatten(vector([1, [2, 3]]))).toEqual([2, 1, 2, 3]);
    expect(flatten(text('env'))).toEqual([3, 0x65, 0x6e, 0x76]);
    expect(flatten(float32(1))).toEqual([0, 0, 0x80, 0x3f]);
  });
});

test('a module that the host accepts and runs', () => {
  const memory = new WebAssemblyHost.Memory({ initial: 1, maximum: 1 });
  const module = new ModuleWriter({ pages: 1, isShared: false });
  const writer = new FunctionWriter(2);
  const sum = writer.local('i32');
  const [a, b] = [writer.parameter(0), writer.parameter(1)];
  module.add(writer.finish([sum.set(i32.add(a.get, b.get)), sum.increase(1000), sum.get]), {
    exportAs: 'sum',
    hasResult: true,
  });
  const compiled = new WebAssemblyHost.Module(module.bytes());
  const { sum: run } = new WebAssemblyHost.Instance(compiled, { env: { memory } }).exports;
  expect(run?.(20, 3)).toBe(1023);
});

interface HostInterface {
  readonly Memory: new (limits: object) => object;
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (
    module: object,
    imports: object,
  ) => { readonly exports: Readonly<Record<string, (...numbers: number[]) => number>> };
}
const WebAssemblyHost = (globalThis as unknown as { WebAssembly: HostInterface }).WebAssembly;
