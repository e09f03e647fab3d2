import { type Scene, type Solution, type SolveOptions, simdKernel, solve, wasmMemory } from '@sheetwave/field';

/** Millimetres in m. */
export const mm = 1e-3;

/** Solves with the fast kernel on one thread: the same bits as the plain one, in a fraction of the time. */
export const solveFast = (scene: Scene, options: SolveOptions): Promise<Solution> =>
  solve(scene, { kernel: (input) => simdKernel(input), allocate: wasmMemory({ isShared: false }), ...options });

/** A scene with the parts that are given. */
export const sceneOf = (parts: Partial<Scene>): Scene => ({ sheets: [], solids: [], wires: [], ports: [], ...parts });

/** Relative difference of a found value from the expected one. */
export const off = (found: number, expected: number): number => Math.abs(found / expected - 1);
