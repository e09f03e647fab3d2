export type { Complex } from './complex.ts';
export * from './constants.ts';
export * from './far-field.ts';
export * from './field-error.ts';
export * from './grid.ts';
export * from './kernel.ts';
export { type BestKernelOptions, bestKernel, type KernelChoice } from './kernels/best-kernel.ts';
export { plainKernel } from './kernels/plain.ts';
export { detectFeatures, type WasmFeatures } from './kernels/simd/features.ts';
export { type MemoryOptions, wasmMemory } from './kernels/simd/memory.ts';
export { chooseSchedule, type Schedule, type ScheduleRequest } from './kernels/simd/schedule.ts';
export { type SimdOptions, simdKernel } from './kernels/simd/simd-kernel.ts';
export { type FastOptions, fastKernel, usableThreads } from './kernels/threads/threaded-kernel.ts';
export { layoutBytes, planLayout, rowLength, slabIndex } from './layout.ts';
export * from './memory.ts';
export { coarserRules } from './mesh-error.ts';
export {
  type SheetCurrent,
  type SheetSide,
  sheetCurrents,
  surfaceResistance,
  type WireCurrent,
} from './metal-sampler.ts';
export * from './model.ts';
export * from './pattern.ts';
export * from './plan-grid.ts';
export * from './plan-scene.ts';
export * from './progress.ts';
export * from './quality.ts';
export * from './resonances.ts';
export * from './run.ts';
export * from './scene.ts';
export type { Slice, SliceRequest } from './slice-sampler.ts';
export * from './solution.ts';
export { solve } from './solve.ts';
export type { SolveOptions } from './solve-options.ts';
export * from './spectrum.ts';
export * from './symmetry.ts';
export * from './tail.ts';
export * from './update.ts';
export * from './waveform.ts';
