import type { Complex } from './complex.ts';
import type { SheetCurrent } from './metal-sampler.ts';
import type { Pattern } from './pattern.ts';
import type { GridReport } from './plan-grid.ts';
import type { Slice } from './slice-sampler.ts';
import type { Symmetry } from './symmetry.ts';
import type { Resonance } from './tail.ts';

/** How the run that drove one port ended. */
export interface RunReport {
  readonly port: number;
  readonly steps: number;
  /** `decayed`: the fields died away. `extrapolated`: poles carry the last of the ringing on. */
  readonly end: 'decayed' | 'extrapolated';
  /** Field energy left, dB of its highest value. */
  readonly energyDb: number;
  readonly resonances: readonly Resonance[];
  /** Of the fit of the resonances, relative. */
  readonly residual: number;
}

/** Powers of one driven port at one frequency, as parts of the accepted power. */
export interface PowerBalance {
  readonly freqHz: number;
  readonly port: number;
  /** Through the closed surface. */
  readonly radiated: number;
  /** In metal of finite conductivity, from the computed currents. */
  readonly metal: number;
  /** Accepted less radiated: lost in dielectrics and resistors; in a scene without them, the error of the balance. */
  readonly rest: number;
}

export interface FarFieldResult {
  readonly pattern: Pattern;
  readonly balance: PowerBalance;
  /** Radiated over accepted power with all losses, 0 to 1. */
  readonly efficiency: number;
  /** Directivity times efficiency, dBi. */
  readonly gainDbi: number;
  /** Gain with the loss of mismatch, dBi. */
  readonly realisedGainDbi: number;
}

/** Estimated error that the grid leaves, from a second run on cells 1.41 times as long. */
export interface MeshError {
  /** Relative, of the strongest resonance; undefined when none was seen. */
  readonly resonance: number | undefined;
  /** Of each S parameter, the largest over the frequencies. */
  readonly s: number;
  /** dB, the largest over the far fields; 0 without any. */
  readonly gainDb: number;
}

/** All answers, as plain data in SI units. */
export interface Solution {
  readonly grid: GridReport;
  readonly symmetry: Symmetry;
  readonly freqHz: readonly number[];
  readonly referenceOhm: readonly number[];
  /** s[f][to][from]. */
  readonly s: readonly (readonly (readonly Complex[])[])[];
  /** Input impedance of each port, the others ending in their resistance: z[f][port], ohm. */
  readonly z: readonly (readonly Complex[])[];
  /** Of each port at each frequency, port after port. */
  readonly farFields: readonly FarFieldResult[];
  /** Of each driven port, where asked for: the currents of all sheets at each frequency of the far fields. */
  readonly currents: readonly (readonly SheetCurrent[])[];
  /** Of each driven port: the planes asked for, at each frequency of the far fields. */
  readonly slices: readonly (readonly Slice[])[];
  /** One for each driven port: ports that are the mirror image of one before are not driven. */
  readonly runs: readonly RunReport[];
  /** Of each port, the number in `runs` of the run that answers for it: its own, or that of a port whose image it is. */
  readonly runOfPort: readonly number[];
  /** Why not the fastest kernel was used; left out when it was, or when a kernel was given. */
  readonly kernelReason?: string;
  /** With `twoMeshes` only. */
  readonly meshError?: MeshError;
}
