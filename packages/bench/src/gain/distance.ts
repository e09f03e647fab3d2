import { wavelength } from '@sheetwave/rf';

/** Wavelengths that must lie between two antennas, however small they are (common practice, no source). */
const LEAST_WAVELENGTHS = 10;

/** Whether two antennas stand far enough apart for their gains to be read. */
export interface DistanceCheck {
  readonly distanceM: number;
  /** Largest dimension of the larger antenna, m. */
  readonly largestM: number;
  /** 2 D²/lambda, m. */
  readonly farFieldM: number;
  /** Ten wavelengths, m. */
  readonly leastM: number;
  readonly isEnough: boolean;
  /** What the curved wave front takes off the gain at most, dB. */
  readonly curvatureDb: number;
}

/**
 * Far field by 2 D²/lambda (IEEE Std 149, far-field criterion; memory). The wave front lags by b = pi D²/(4 lambda R) at the edges of an evenly
 * lit line; its phase b x² over -1 to 1 has the variance 4 b²/45, and the power on the axis falls by exp(-variance). Computed:
 * at 2 D²/lambda b is pi/8 and the loss 0.06 dB.
 */
export function distanceCheck(distanceM: number, largestM: number, freqHz: number): DistanceCheck {
  for (const [name, value] of Object.entries({ distanceM, largestM, freqHz }))
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${name} must be above 0, not ${value}.`);
  const lambda = wavelength(freqHz);
  const farFieldM = (2 * largestM ** 2) / lambda;
  const leastM = LEAST_WAVELENGTHS * lambda;
  const edge = (Math.PI * largestM ** 2) / (4 * lambda * distanceM);
  const curvatureDb = 10 * Math.LOG10E * ((4 / 45) * edge ** 2);
  return { distanceM, largestM, farFieldM, leastM, isEnough: distanceM >= Math.max(farFieldM, leastM), curvatureDb };
}
