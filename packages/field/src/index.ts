export * from './constants.ts';
export * from './kernel.ts';
export { plainKernel } from './kernels/plain.ts';
export { layoutBytes, planLayout, rowLength, slabIndex } from './layout.ts';
export * from './memory.ts';
export * from './update.ts';
