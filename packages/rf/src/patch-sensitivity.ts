import { type Estimate, type ExpectedError, estimate, outside, relativeError } from './estimate.ts';
import { type RectangularPatch, resonanceHz } from './patch-resonance.ts';
import { requireBetween, requirePermittivity, requirePositive } from './require.ts';
import { slopeAt } from './solve.ts';

/** How far the resonance moves with each dimension, Hz/m; `perPermittivity` in Hz for a change of 1. */
export interface PatchSensitivity {
  readonly perLength: number;
  readonly perWidth: number;
  readonly perHeight: number;
  readonly perSheet: number;
  readonly perPermittivity: number;
  /** Of every slope. */
  readonly error: ExpectedError;
}

const SLOPE_ERROR = relativeError(
  0.15,
  'Over air the slope along the gap is 12 % steeper than in an independent field solution; no measured slopes at hand.',
);

type Dimension = 'lengthM' | 'widthM' | 'heightM' | 'sheetM' | 'permittivity';

/** Step of the differences as a share of the dimension: their error is its square, rounding is its reciprocal times 1e-16. */
const STEP = 1e-5;

function along(patch: RectangularPatch, dimension: Dimension): number {
  const value = patch[dimension];
  return slopeAt((x) => resonanceHz({ ...patch, [dimension]: x }), value, value * STEP);
}

/** Forward difference at 1: the permittivity of air cannot be lowered. */
function alongPermittivity(patch: RectangularPatch): number {
  if (patch.permittivity > 1 + STEP) return along(patch, 'permittivity');
  const at = (permittivity: number) => resonanceHz({ ...patch, permittivity });
  return (at(1 + STEP) - at(1)) / STEP;
}

/** Slopes of `resonanceHz` by central differences. A sheet without thickness gets 0 for it. */
export function patchSensitivity(patch: RectangularPatch): PatchSensitivity {
  return {
    perLength: along(patch, 'lengthM'),
    perWidth: along(patch, 'widthM'),
    perHeight: along(patch, 'heightM'),
    perSheet: patch.sheetM === 0 ? 0 : along(patch, 'sheetM'),
    perPermittivity: alongPermittivity(patch),
    error: SLOPE_ERROR,
  };
}

/** A slope in Hz/m as a workshop reads it: MHz for each 0.1 mm. */
export const asMegahertzPerTenthMillimetre = (slopeHzPerM: number): number => (slopeHzPerM * 1e-4) / 1e6;

/** A dielectric post between the plane and the patch, as tall as the gap. */
export interface Post {
  readonly permittivity: number;
  /** Cross-section, m^2. */
  readonly areaM2: number;
  /** From the centre of the patch along its length, m; half the length is the edge. */
  readonly offsetM: number;
}

function postShare({ lengthM, widthM }: PatchArea, { permittivity, areaM2, offsetM }: Post): number {
  requirePermittivity({ permittivity });
  requirePositive({ areaM2 });
  requireBetween('offsetM', offsetM, { low: -lengthM / 2, high: lengthM / 2, inclusive: true });
  const field = Math.sin((Math.PI * offsetM) / lengthM) ** 2;
  return ((permittivity - 1) * areaM2 * field) / (lengthM * widthM);
}

type PatchArea = Pick<RectangularPatch, 'lengthM' | 'widthM'>;

/**
 * Share of the frequency, 0 or negative, that dielectric posts in the air gap take away: -(er - 1)(A/LW) sin^2(pi x/L) each,
 * by perturbation of a field that varies as the sine of the distance from the centre line (Harrington, Time-Harmonic
 * Electromagnetic Fields, sec. 7.2; memory). For posts with an area far below the patch's. A metal post on the centre line
 * takes nothing.
 */
export function postDetuning(patch: PatchArea, posts: readonly Post[]): Estimate {
  const { lengthM, widthM } = patch;
  requirePositive({ lengthM, widthM });
  const area = posts.reduce((sum, { areaM2 }) => sum + areaM2, 0);
  return estimate({
    value: posts.reduce((sum, post) => sum - postShare(patch, post), 0),
    unit: 'ratio',
    error: relativeError(0.3, 'First-order perturbation without the fringe of the patch (common practice, no check).'),
    leavesOut: ['Screws inside the posts.', 'The field beyond the edge of the patch.'],
    limits: [outside('The area of the posts over that of the patch', area / (lengthM * widthM), 0, 0.1)],
  });
}
