import type { Site } from '@sheetwave/design';
import { fadePercent, multipathOccurrencePercent, NO_MULTIPATH_TO_M } from '@sheetwave/rf';
import { endsOf } from './ground.ts';

/** How long the air lets the link work. */
export interface Availability {
  /** Of the average worst month, per cent; 0 for none. */
  readonly outagePercent: number;
  readonly model: string;
}

/** Outage by fades in clear air deeper than the margin; undefined for a link without margin. */
export function availabilityOf(site: Site, freqHz: number, marginDb: number): Availability | undefined {
  if (marginDb < 0) return undefined;
  const { distanceM, refractivityPerKm } = site.path;
  if (distanceM <= NO_MULTIPATH_TO_M) {
    return {
      outagePercent: 0,
      model:
        'paths to 5 km have no outage by multipath in clear air (ITU-R P.530-18, 2.3.1); a mirror of water is told apart',
    };
  }
  const ends = endsOf(site);
  const occurrence = multipathOccurrencePercent({
    distanceM,
    freqHz,
    nearHeightM: ends.nearM,
    farHeightM: ends.farM,
    gradientPerKm: refractivityPerKm,
  });
  return {
    outagePercent: fadePercent(Math.min(occurrence, 2000), marginDb),
    model: `clear-air multipath, quick planning of ITU-R P.530-13 to -17 with a gradient of ${refractivityPerKm} N-units per km, average worst month`,
  };
}
