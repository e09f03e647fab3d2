/** The part of the WebAssembly JavaScript interface that the kernels use; the same in browsers and in Node. */
export interface WasmMemory {
  readonly buffer: ArrayBufferLike;
}

/** A compiled module; may be sent to workers. */
export type WasmModule = object;

export interface WasmInstance {
  readonly exports: Readonly<Record<string, (...operands: number[]) => number>>;
}

interface WebAssemblyInterface {
  validate(bytes: Uint8Array): boolean;
  readonly Memory: new (limits: { initial: number; maximum: number; shared: boolean }) => WasmMemory;
  readonly Module: new (bytes: Uint8Array) => WasmModule;
  readonly Instance: new (module: WasmModule, imports: { env: { memory: WasmMemory } }) => WasmInstance;
}

/** The host's WebAssembly, or undefined where it has none. */
export const hostWebAssembly = (): WebAssemblyInterface | undefined =>
  (globalThis as { WebAssembly?: WebAssemblyInterface }).WebAssembly;

/** @throws Error where the host has no WebAssembly. */
export function webAssembly(): WebAssemblyInterface {
  const host = hostWebAssembly();
  if (host === undefined) throw new Error('This host has no WebAssembly; the plain kernel runs without it.');
  return host;
}
