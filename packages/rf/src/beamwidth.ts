import { latticePattern, type PatchArray } from './directivity.ts';
import { type Estimate, estimate, relativeError } from './estimate.ts';
import type { Direction } from './patch-pattern.ts';
import { findCrossing } from './solve.ts';

/** Half-power beamwidths (rad) in the plane of the electric field (the patches' length) and across it. */
export interface Beamwidths {
  readonly alongLength: Estimate;
  readonly alongWidth: Estimate;
}

/** First angle at which a cut of the pattern falls to half; undefined when it does not before the horizon. */
function halfPowerAngle(cut: (theta: number) => number): number | undefined {
  const steps = 720;
  const above = (theta: number) => cut(theta) / cut(0) - 0.5;
  for (let i = 1; i <= steps; i += 1) {
    const theta = (Math.PI / 2) * (i / steps);
    if (above(theta) < 0) return findCrossing(above, { low: theta - Math.PI / (2 * steps), high: theta });
  }
  return undefined;
}

function beamwidth(cut: (theta: number) => number): Estimate {
  const half = halfPowerAngle(cut);
  return estimate({
    value: 2 * (half ?? Math.PI / 2),
    unit: 'rad',
    error: relativeError(0.1, 'Pattern multiplication over an endless plane (common practice, from memory).'),
    leavesOut: ['The edge of the reflector.', 'Coupling between the patches.', 'Parasitic patches.'],
    limits: [half === undefined ? 'The pattern does not fall to half its power before the horizon.' : undefined],
  });
}

/** Half-power beamwidths straight ahead of an array of patches fed alike (a single patch has counts of 1). */
export function beamwidths(array: PatchArray): Beamwidths {
  const pattern = latticePattern(array, { u: 0, v: 0 });
  const at = (u: number, v: number): Direction => ({ u, v });
  return {
    alongLength: beamwidth((theta) => pattern(at(Math.sin(theta), 0))),
    alongWidth: beamwidth((theta) => pattern(at(0, Math.sin(theta)))),
  };
}
