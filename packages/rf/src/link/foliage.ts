import { requireBetween } from '../require.ts';

/** Depth of foliage to which the formula was fitted, m. */
const DEEPEST_M = 400;

/**
 * Loss through trees in leaf, dB: 0.2 f^0.3 d^0.6 with f in MHz and d the metres of foliage along the path (CCIR Report 236-2, the "early
 * ITU" model; memory). 0.2 to 95 GHz, to 400 m of foliage, both ends near the trees; measured losses differ by several dB. ITU-R P.833
 * gives curves instead of a formula, about 1 dB/m at 5 GHz for the first metres, which this agrees with.
 */
export function foliageLossDb(freqHz: number, depthM: number): number {
  requireBetween('freqHz', freqHz, { low: 0.2e9, high: 95e9, inclusive: true });
  requireBetween('depthM', depthM, { low: 0, high: DEEPEST_M, inclusive: true });
  return 0.2 * (freqHz / 1e6) ** 0.3 * depthM ** 0.6;
}
