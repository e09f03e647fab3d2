import { requireBetween, requirePositive } from './require.ts';

/** Impedance (ohm) of the quarter-wave section between two resistances: their geometric mean (Pozar, Microwave Engineering, eq. 2.63). */
export function quarterWaveImpedance(fromOhm: number, toOhm: number): number {
  requirePositive({ fromOhm, toOhm });
  return Math.sqrt(fromOhm * toOhm);
}

/** A quarter-wave section that is to match. */
export interface QuarterWaveMatch {
  readonly fromOhm: number;
  readonly toOhm: number;
  /** Greatest reflection allowed, above 0 and below 1. */
  readonly reflection: number;
}

/**
 * Relative bandwidth in which one section keeps the reflection: 2 - (4/pi) acos(G/sqrt(1 - G^2) 2 sqrt(Z1 Z2)/|Z2 - Z1|) (Pozar, ibid.,
 * eq. 5.33), up to 2, which it is when the step itself reflects no more. Resistive loads and an ideal line.
 */
export function quarterWaveBandwidth({ fromOhm, toOhm, reflection }: QuarterWaveMatch): number {
  requirePositive({ fromOhm, toOhm });
  requireBetween('reflection', reflection, { low: 0, high: 1 });
  const reach =
    (reflection / Math.sqrt(1 - reflection ** 2)) * ((2 * Math.sqrt(fromOhm * toOhm)) / Math.abs(toOhm - fromOhm));
  return reach >= 1 ? 2 : 2 - (4 / Math.PI) * Math.acos(reach);
}

/** Branch impedances (ohm) of a lossless parallel junction that match `nodeOhm` and share the power as `shares` (any positive numbers): Z0 times the sum over the share. */
export function teeBranches(nodeOhm: number, shares: readonly number[]): readonly number[] {
  requirePositive({ nodeOhm });
  for (const share of shares) requirePositive({ share });
  const total = shares.reduce((sum, share) => sum + share, 0);
  return shares.map((share) => (nodeOhm * total) / share);
}
