import type { Solution } from '@sheetwave/field';
import { type Complex, portFeatures, type Response } from '@sheetwave/rf';
import type { PredictedResonance } from './prediction.ts';

/** Peaks of the resistance and dips of the reflection that rise less than this over what is beside them are ripples. */
const LEAST = 0.05;

/** Weaker poles are noise, or modes that hardly matter. */
const LEAST_STRENGTH = 0.02;

/** Resonances of every port by all definitions, each kind in order of frequency. Mirrored ports share the poles of one run. */
export function resonances(response: Response, solution: Solution): PredictedResonance[] {
  return solution.runOfPort.flatMap((run, port) => {
    const poles = solution.runs[run]?.resonances ?? [];
    const { resistancePeaks, reactanceZeros, leastReflections } = portFeatures(response, {
      port,
      leastDip: LEAST,
      leastPeak: LEAST,
    });
    const at = (kind: PredictedResonance['kind'], freqHz: number): PredictedResonance => ({
      kind,
      port,
      freqHz,
      ...impedanceAt(solution, port, freqHz),
    });
    return [
      ...poles
        .filter(({ strength }) => strength >= LEAST_STRENGTH)
        .map(({ freqHz, q, strength }) => ({ ...at('pole', freqHz), q, strength })),
      ...reactanceZeros.map(({ freqHz }) => at('reactance-zero', freqHz)),
      ...resistancePeaks.map(({ freqHz }) => at('resistance-peak', freqHz)),
      ...leastReflections.map(({ freqHz }) => at('least-reflection', freqHz)),
    ];
  });
}

/** Between two samples the impedance is taken as a straight line; nothing outside the sweep. */
function impedanceAt({ freqHz, z }: Solution, port: number, wanted: number): { zOhm?: Complex } {
  const after = freqHz.findIndex((value) => value >= wanted);
  const [a, b] = [z[after - 1]?.[port], z[after]?.[port]];
  const [from, to] = [freqHz[after - 1], freqHz[after]];
  if (b && to === wanted) return { zOhm: b };
  if (!a || !b || from === undefined || to === undefined) return {};
  const share = (wanted - from) / (to - from);
  return { zOhm: { re: a.re + share * (b.re - a.re), im: a.im + share * (b.im - a.im) } };
}
