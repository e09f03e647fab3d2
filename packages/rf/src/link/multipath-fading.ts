import { requireFinite, requireNotNegative, requirePositive } from '../require.ts';

/** Paths up to this length may be taken to have no outage by multipath in clear air, m (ITU-R P.530-18, section 2.3.1; confirmed by an excerpt). */
export const NO_MULTIPATH_TO_M = 5000;

export interface FadingPath {
  readonly distanceM: number;
  readonly freqHz: number;
  /** Of the antennas above sea level, m. */
  readonly nearHeightM: number;
  readonly farHeightM: number;
  /**
   * Refractivity gradient in the lowest 65 m of the air that is not exceeded for 1 % of an average year, N-units per km: -200 to -400 in
   * temperate climates, lower over warm sea (ITU-R P.453; memory).
   */
  readonly gradientPerKm: number;
}

/**
 * Multipath occurrence factor in per cent: the share of the average worst month for which a fade of 0 dB would be passed if deep fades
 * went on to there (ITU-R P.530-13 to P.530-17, section 2.3.1, quick planning:
 * 10^(-4.6 - 0.0027 dN1) d^3.1 (1 + |e|)^-1.29 f^0.8 10^(-0.00089 h); partly confirmed, partly memory). P.530-18 uses other maps.
 */
export function multipathOccurrencePercent(path: FadingPath): number {
  const { distanceM, freqHz, nearHeightM, farHeightM, gradientPerKm } = path;
  requirePositive({ distanceM, freqHz });
  requireFinite({ nearHeightM, farHeightM, gradientPerKm });
  const km = distanceM / 1000;
  const tiltMrad = Math.abs(nearHeightM - farHeightM) / km;
  const climate = 10 ** (-4.6 - 0.0027 * gradientPerKm);
  const low = Math.max(0, Math.min(nearHeightM, farHeightM));
  return climate * km ** 3.1 * (1 + tiltMrad) ** -1.29 * (freqHz / 1e9) ** 0.8 * 10 ** (-0.00089 * low);
}

/**
 * Share of the average worst month in per cent for which a fade is deeper than `fadeDb` (0 or above): deep fades by p0 10^(-A/10), shallow
 * ones by the interpolation of ITU-R P.530-17 section 2.3.2, equations 10 to 18 (memory). For occurrence factors from 0 to 2000 %.
 */
export function fadePercent(occurrencePercent: number, fadeDb: number): number {
  requireNotNegative({ occurrencePercent, fadeDb });
  if (occurrencePercent === 0) return 0;
  const deepFromDb = 25 + 1.2 * Math.log10(occurrencePercent);
  if (fadeDb >= deepFromDb) return Math.min(100, occurrencePercent * 10 ** (-fadeDb / 10));
  const deepPercent = Math.min(99.999, occurrencePercent * 10 ** (-deepFromDb / 10));
  const atDeep = (-20 / deepFromDb) * Math.log10(-Math.log((100 - deepPercent) / 100));
  const shape = (db: number) => 4.3 * (10 ** (-db / 20) + db / 800);
  const slope = (db: number) => (1 + 0.3 * 10 ** (-db / 20)) * 10 ** (-0.016 * db);
  const q = (atDeep - 2) / slope(deepFromDb) - shape(deepFromDb);
  const at = 2 + slope(fadeDb) * (q + shape(fadeDb));
  return 100 * (1 - Math.exp(-(10 ** ((-at * fadeDb) / 20))));
}
