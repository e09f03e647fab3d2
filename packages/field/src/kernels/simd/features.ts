import { FieldError } from '../../field-error.ts';
import type { Code } from './emit/code.ts';
import { FunctionWriter } from './emit/function-writer.ts';
import { drop, f32, f32x4, i32 } from './emit/instructions.ts';
import { ModuleWriter } from './emit/module-writer.ts';
import { hostWebAssembly } from './web-assembly.ts';

export interface WasmFeatures {
  /** Fixed-width SIMD: without it there is no fast kernel. */
  readonly simd: boolean;
  /** Shared memory and atomics, and pages that may use them: without it one thread only. */
  readonly threads: boolean;
  /** Fused multiply-add. */
  readonly relaxedSimd: boolean;
}

/** What this host can run, found out by letting it check small modules. */
export function detectFeatures(): WasmFeatures {
  const ones = f32x4.splat(f32.of(1));
  return {
    simd: accepts(drop(f32x4.add(ones, ones)), false),
    threads: accepts(drop(i32.of(0)), true) && canShareMemory(),
    relaxedSimd: accepts(drop(f32x4.relaxedMultiplyAdd(ones, ones, ones)), false),
  };
}

/** A page that is not isolated from other origins has the type but may not send it, or does not have it at all. */
function canShareMemory(): boolean {
  const host = globalThis as { SharedArrayBuffer?: unknown; crossOriginIsolated?: boolean };
  return host.SharedArrayBuffer !== undefined && host.crossOriginIsolated !== false;
}

function accepts(body: Code, isShared: boolean): boolean {
  const module = new ModuleWriter({ pages: 1, isShared });
  module.add(new FunctionWriter(0).finish(body));
  return hostWebAssembly()?.validate(module.bytes()) ?? false;
}

/**
 * @throws FieldError that names the missing feature and the way out.
 */
export function requireFeatures(features: WasmFeatures, wanted: { threads: number; fusedMultiplyAdd: boolean }): void {
  if (!features.simd) throw missing('kernel', 'fast', 'this host runs no WebAssembly SIMD', 'use the plain kernel');
  if (wanted.threads > 1 && !features.threads) {
    const why = 'this host shares no memory between threads (a page must be cross-origin isolated)';
    throw missing('threads', String(wanted.threads), why, 'use one thread');
  }
  if (wanted.fusedMultiplyAdd && !features.relaxedSimd) {
    throw missing('fusedMultiplyAdd', 'true', 'this host has no relaxed SIMD, which it needs', 'leave it off');
  }
}

const missing = (path: string, value: string, allowed: string, remedy: string): FieldError =>
  new FieldError([{ code: 'missing-feature', path, value, allowed, remedy }]);
