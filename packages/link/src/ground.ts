import type { Site } from '@sheetwave/design';
import { earthBulgeM, fresnelRadiusM } from '@sheetwave/rf';

/** One place along the path. Heights in m above the zero of the site, the bulge of the earth added to the ground. */
export interface GroundPoint {
  readonly atM: number;
  readonly groundM: number;
  /** Top of what stands there; the ground where nothing does. */
  readonly topM: number;
  /** The straight line between both antennas. */
  readonly lineM: number;
  /** Radius of the first Fresnel zone; 0 at the ends. */
  readonly zoneM: number;
}

/** Both antennas in the frame of the ground. */
export interface Ends {
  readonly distanceM: number;
  readonly nearGroundM: number;
  readonly farGroundM: number;
  readonly nearM: number;
  readonly farM: number;
}

/** Heights of the antennas above the zero of the site: that of the profile, or flat ground without one. */
export function endsOf({ path, near, far }: Site): Ends {
  const { distanceM, profile } = path;
  const nearGroundM = profile?.[0]?.groundM ?? 0;
  const farGroundM = profile?.at(-1)?.groundM ?? 0;
  return {
    distanceM,
    nearGroundM,
    farGroundM,
    nearM: nearGroundM + near.heightM,
    farM: farGroundM + far.heightM,
  };
}

/** Steps between given points of a profile are at most this share of the path, so that the bulge and the zones are followed. */
const LARGEST_STEP = 1 / 200;

/**
 * The ground along the path on an earth of this effective radius factor, points of the profile and enough between them. Ground runs
 * straight from point to point; an obstacle stands at its own point only.
 */
export function groundAlong(site: Site, freqHz: number, earthFactor: number): readonly GroundPoint[] {
  const ends = endsOf(site);
  const { distanceM } = ends;
  const flat = [
    { atM: 0, groundM: ends.nearGroundM, obstacleM: 0 },
    { atM: distanceM, groundM: ends.farGroundM, obstacleM: 0 },
  ];
  const given = site.path.profile ?? flat;
  return given.flatMap((point, index) => {
    const next = given[index + 1];
    const here = at(point.atM, point.groundM, point.obstacleM);
    if (next === undefined) return [here];
    const steps = Math.max(1, Math.ceil((next.atM - point.atM) / (LARGEST_STEP * distanceM)));
    const between = Array.from({ length: steps - 1 }, (_, step) => {
      const share = (step + 1) / steps;
      const groundM = point.groundM + share * (next.groundM - point.groundM);
      return at(point.atM + share * (next.atM - point.atM), groundM, 0);
    });
    return [here, ...between];
  });

  function at(atM: number, groundM: number, obstacleM: number): GroundPoint {
    const rest = distanceM - atM;
    const raised = groundM + earthBulgeM(atM, Math.max(0, rest), earthFactor);
    const inside = atM > 0 && rest > 0;
    return {
      atM,
      groundM: raised,
      topM: raised + obstacleM,
      lineM: ends.nearM + ((ends.farM - ends.nearM) * atM) / distanceM,
      zoneM: inside ? fresnelRadiusM(atM, rest, freqHz) : 0,
    };
  }
}

/** Where the path is tightest. */
export interface Clearance {
  readonly atM: number;
  /** From the top of what is there up to the line of sight; negative when it is cut. */
  readonly clearanceM: number;
  readonly zoneM: number;
  /** Clearance in radii of the first Fresnel zone. */
  readonly share: number;
}

/** The smallest share of the first Fresnel zone that is clear, between the ends. */
export function tightest(points: readonly GroundPoint[]): Clearance {
  const inside = points.filter(({ zoneM }) => zoneM > 0);
  const [first, ...rest] = inside.map(({ atM, lineM, topM, zoneM }): Clearance => {
    const clearanceM = lineM - topM;
    return { atM, clearanceM, zoneM, share: clearanceM / zoneM };
  });
  if (first === undefined) throw new Error('a path has points between its ends');
  return rest.reduce((least, each) => (each.share < least.share ? each : least), first);
}
