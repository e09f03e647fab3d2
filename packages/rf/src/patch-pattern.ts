import { waveNumber } from './constants.ts';
import { requirePositive } from './require.ts';

/** A patch as it radiates. m. */
export interface RadiatingPatch {
  readonly widthM: number;
  /** Distance of the radiating edges: best the length with end extensions. */
  readonly lengthM: number;
}

/**
 * A direction in front of the plane: the sine components along the patch's length (u) and width (v). The angle from
 * straight ahead has the sine sqrt(u^2 + v^2).
 */
export interface Direction {
  readonly u: number;
  readonly v: number;
}

/** The direction at `theta` from straight ahead, `phi` from the length axis, rad. */
export const direction = (theta: number, phi: number): Direction => ({
  u: Math.sin(theta) * Math.cos(phi),
  v: Math.sin(theta) * Math.sin(phi),
});

const sinc = (x: number): number => (Math.abs(x) < 1e-8 ? 1 : Math.sin(x) / x);

/**
 * Radiated power over solid angle, 1 straight ahead, of the two edges over an endless plane: (cos^2 phi + cos^2 theta
 * sin^2 phi) F^2, F = sinc(k0 W v/2) cos(k0 L u/2) (Balanis, Antenna Theory, eq. 14-43 to 14-45).
 */
export function patchPattern(patch: RadiatingPatch, freqHz: number): (at: Direction) => number {
  const { widthM, lengthM } = patch;
  requirePositive({ widthM, lengthM, freqHz });
  const k = waveNumber(freqHz);
  return ({ u, v }) => {
    const f = sinc((k * widthM * v) / 2) * Math.cos((k * lengthM * u) / 2);
    // cos^2 phi + cos^2 theta sin^2 phi = 1 - v^2.
    return (1 - v * v) * f * f;
  };
}
