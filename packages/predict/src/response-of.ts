import type { FarFieldResult, Solution } from '@sheetwave/field';
import { checkedResponse, direction, type RadiationPattern, type Response, type ResponseError } from '@sheetwave/rf';
import type { PredictionQuality } from './prediction.ts';

/**
 * Error of a resonance by quality, relative. Patches over air, lines and cavities with exact values or an independent solution to
 * compare with come within 0.6, 0.3 and 0.2 %. Of stacks of two and three, poles were off by up to 1.1, 1.1 and 0.5 % of what the
 * grids tend to (order 1.5), and the least reflection by up to 1.8, 0.2 and 0.2 %: rounded up by a third or more.
 */
const MODEL_ERROR: Readonly<Record<PredictionQuality, number>> = { draft: 0.025, normal: 0.015, fine: 0.008 };

/**
 * Error of the gain by quality, dB, without a second grid. From `draft` to `normal` the gain of five antennas (stacks of two and three, a strip,
 * etched patches, a slot) changed by 0.01 to 0.34 dB over their bands; the dipole whose gain is known is 0.05 dB off, and so is what 1 % in the
 * balance of power makes.
 */
const GAIN_ERROR_DB: Readonly<Record<PredictionQuality, number>> = { draft: 0.6, normal: 0.4, fine: 0.3 };

interface Setting {
  readonly quality: PredictionQuality;
  /** Patterns are kept of this band, with its edges: they are most of the numbers of a response. */
  readonly band: { readonly lowHz: number; readonly highHz: number };
}

/** The solution as a response with its error. */
export function responseOf(solution: Solution, { quality, band }: Setting): Response {
  const inBand = ({ freqHz }: { readonly freqHz: number }) => freqHz >= band.lowHz && freqHz <= band.highHz;
  return checkedResponse({
    origin: 'prediction',
    method: `Field solution in the time domain, ${solution.grid.cells} cells, quality ${quality}.`,
    error: errorOf(solution, quality),
    freqHz: solution.freqHz,
    referenceOhm: solution.referenceOhm[0] ?? 50,
    s: solution.s,
    patterns: solution.farFields.filter(({ pattern }) => pattern.port === 0 && inBand(pattern)).map(radiationPattern),
  });
}

function errorOf({ meshError }: Solution, quality: PredictionQuality): ResponseError {
  const frequency = MODEL_ERROR[quality];
  if (!meshError)
    return {
      frequency,
      gainDb: GAIN_ERROR_DB[quality],
      origin: `What stacks of patches changed by between grids, and what single patches are off by at quality ${quality}, rounded up; how the antenna is made comes on top.`,
    };
  return {
    frequency: Math.max(frequency, meshError.resonance ?? 0),
    coefficient: meshError.s,
    gainDb: meshError.gainDb,
    origin: `A second, coarser grid, and for the frequency at least what stacks of patches leave at quality ${quality}; how the antenna is made comes on top.`,
  };
}

/** Every so many columns of the far field go into a response: 12° around straight ahead, where patterns change slowly. */
const COLUMN_STEP = 4;
/** Far below what a gain and a direction are good for; whole doubles would make a file ten times as long. */
const GAIN_DIGITS = 2;
const DIRECTION_DIGITS = 4;

/** Gain over the half space in front, u up and v to the left seen from behind (+x); straight ahead once, and first. */
function radiationPattern({ pattern, efficiency }: FarFieldResult): RadiationPattern {
  const columns = pattern.phi.length;
  const ahead = pattern.theta.filter((theta) => theta <= Math.PI / 2 + 1e-9).length;
  const places = Array.from({ length: ahead * columns }, (_, n) => n).filter(
    (n) => (n % columns) % COLUMN_STEP === 0 && (n === 0 || (pattern.theta[Math.floor(n / columns)] ?? 0) > 1e-9),
  );
  return {
    freqHz: pattern.freqHz,
    directions: places.map((n) => {
      // rf counts phi from the length axis, which is vertical; here it counts from +x.
      const phi = Math.PI / 2 - (pattern.phi[n % columns] ?? 0);
      const { u, v } = direction(pattern.theta[Math.floor(n / columns)] ?? 0, phi);
      return { u: rounded(u, DIRECTION_DIGITS), v: rounded(v, DIRECTION_DIGITS) };
    }),
    gainDbi: places.map((n) => {
      const gain = efficiency * ((pattern.thetaPart[n] ?? 0) + (pattern.phiPart[n] ?? 0));
      return rounded(Math.max(-60, 10 * Math.log10(gain)), GAIN_DIGITS);
    }),
  };
}

const rounded = (value: number, digits: number): number => Math.round(value * 10 ** digits) / 10 ** digits + 0;
