import { requirePositive } from '../require.ts';

/** Whose reference level for the general public. */
export type ExposureBody = 'icnirp' | 'us';

export interface ExposureLevel {
  readonly body: ExposureBody;
  readonly wPerM2: number;
  readonly source: string;
  readonly certainty: 'confirmed' | 'memory';
}

/** Sources of the levels, with the frequencies they hold for. */
const ICNIRP = 'ICNIRP 2020 (Health Phys. 118:483), table 5, whole body, general public, averaged over 30 min';
const US = '47 CFR 1.1310 table 1(B), general population, averaged over 30 min';

/**
 * Reference level of the power density for the general public in the far field, W/m², 0.4 to 100 GHz.
 * ICNIRP 2020: f_MHz / 200 to 2 GHz, 10 above (memory). United States: f_MHz / 1500 mW/cm² to 1.5 GHz, 1 mW/cm² above (confirmed).
 */
export function exposureLevel(body: ExposureBody, freqHz: number): ExposureLevel {
  requirePositive({ freqHz });
  const mhz = freqHz / 1e6;
  if (mhz < 400 || mhz > 100_000) throw new RangeError(`freqHz must be 0.4e9 to 100e9, not ${freqHz}.`);
  if (body === 'icnirp') return { body, wPerM2: mhz < 2000 ? mhz / 200 : 10, source: ICNIRP, certainty: 'memory' };
  return { body, wPerM2: mhz < 1500 ? mhz / 150 : 10, source: US, certainty: 'confirmed' };
}

/** Ground that adds to the field: none, and the worst (the field doubles, the power density grows fourfold; OET Bulletin 65, section 2). */
export const FREE_FIELD = 1;
export const FULL_REFLECTION = 4;

/**
 * Distance straight ahead at which the power density falls to a level, m: sqrt(EIRP k / (4 pi S)) (OET Bulletin 65, equations 3 and 6).
 * The far-field form; nearer to a large panel it overstates.
 */
export function exposureDistanceM(eirpW: number, wPerM2: number, reflection: number = FULL_REFLECTION): number {
  requirePositive({ eirpW, wPerM2, reflection });
  return Math.sqrt((eirpW * reflection) / (4 * Math.PI * wPerM2));
}

/** Where the far field begins, m: the larger of 2 D²/lambda and lambda/(2 pi), D the largest side of the antenna (IEEE Std 145; memory). */
export function farFieldM(largestM: number, wavelengthM: number): number {
  requirePositive({ largestM, wavelengthM });
  return Math.max((2 * largestM ** 2) / wavelengthM, wavelengthM / (2 * Math.PI));
}
