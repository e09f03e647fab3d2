import { add, type Complex, complex, magnitude, multiply, polar } from './complex.ts';
import { SPEED_OF_LIGHT, waveNumber } from './constants.ts';
import type { Direction } from './patch-pattern.ts';
import { requireBetween, requireCount, requirePositive } from './require.ts';

/** One element: where (m), x along the patches' length and y along their width, and with what complex current or voltage. */
export interface ArrayElement {
  readonly xM: number;
  readonly yM: number;
  readonly weight: Complex;
}

/** Sum of w exp(j k0 (x u + y v)) (Balanis, Antenna Theory, ch. 6). */
export function arrayFactor(elements: readonly ArrayElement[], freqHz: number): (at: Direction) => Complex {
  requirePositive({ freqHz });
  const k = waveNumber(freqHz);
  return ({ u, v }) =>
    elements.reduce(
      (sum, { xM, yM, weight }) => add(sum, multiply(weight, polar(1, k * (xM * u + yM * v)))),
      complex(0),
    );
}

/** A lattice of equal elements: how many and how far apart, m, along one axis. */
export interface Run {
  readonly count: number;
  readonly pitchM: number;
}

/** Elements of a lattice about (0, 0), all weights 1. */
export function latticeElements(alongLength: Run, alongWidth: Run): readonly ArrayElement[] {
  return centred(alongLength).flatMap((xM) => centred(alongWidth).map((yM) => ({ xM, yM, weight: complex(1) })));
}

const centred = ({ count, pitchM }: Run): readonly number[] =>
  Array.from({ length: count }, (_, i) => (i - (count - 1) / 2) * pitchM);

/** The same elements with the phases that turn their beam to `at`. */
export function steer(elements: readonly ArrayElement[], at: Direction, freqHz: number): readonly ArrayElement[] {
  requirePositive({ freqHz });
  const k = waveNumber(freqHz);
  return elements.map((element) => ({
    ...element,
    weight: multiply(element.weight, polar(1, -k * (element.xM * at.u + element.yM * at.v))),
  }));
}

/** |AF|^2 over its greatest possible value, 0 to 1. */
export function normalisedArrayPower(elements: readonly ArrayElement[], freqHz: number): (at: Direction) => number {
  const factor = arrayFactor(elements, freqHz);
  const most = elements.reduce((sum, { weight }) => sum + magnitude(weight), 0);
  return (at) => (magnitude(factor(at)) / most) ** 2;
}

/**
 * |AF|^2 of one line of equal elements with its beam at the sine component `at`, over its greatest value, 0 to 1:
 * (sin(N psi/2)/(N sin(psi/2)))^2, psi = k0 d (u - at) (Balanis, Antenna Theory, eq. 6-10).
 */
export function linePower(freqHz: number, { count, pitchM }: Run, at = 0): (component: number) => number {
  requirePositive({ freqHz, pitchM });
  requireCount({ count });
  const halfStep = (waveNumber(freqHz) * pitchM) / 2;
  return (component) => {
    const half = halfStep * (component - at);
    const below = Math.sin(half);
    // At the main beam and at grating lobes both sines vanish and their ratio is N.
    return Math.abs(below) < 1e-7 ? 1 : (Math.sin(count * half) / (count * below)) ** 2;
  };
}

/** Largest pitch (m) without a grating lobe in front when scanned to `scanRad`: lambda/(1 + sin scan) (Balanis, ibid., eq. 6-85 ff.). Keep broadside arrays below 0.85 to 0.9 of it. */
export function gratingLobePitch(freqHz: number, scanRad = 0): number {
  requirePositive({ freqHz });
  requireBetween('scanRad', scanRad, { low: -Math.PI / 2, high: Math.PI / 2, inclusive: true });
  return SPEED_OF_LIGHT / (freqHz * (1 + Math.abs(Math.sin(scanRad))));
}

/** Angle (rad) of the first null of a uniform broadside line: asin(lambda/(N d)) (ibid., table 6.1). Undefined when the line is too short to have one. */
export function firstNull(freqHz: number, { count, pitchM }: Run): number | undefined {
  requirePositive({ freqHz, count, pitchM });
  const sine = SPEED_OF_LIGHT / (freqHz * count * pitchM);
  return sine > 1 ? undefined : Math.asin(sine);
}
