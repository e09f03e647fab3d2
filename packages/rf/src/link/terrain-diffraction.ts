import { requireFinite, requirePositive } from '../require.ts';
import { knifeEdgeLossDb, knifeEdgeParameter } from './knife-edge.ts';
import { sphericalEarthLossDb } from './spherical-earth.ts';

/** A profile with both antennas, all heights above one zero, the bulge of the earth not in them. Metres. */
export interface TerrainPath {
  /** Of the near and the far antenna. */
  readonly nearM: number;
  readonly farM: number;
  /** What is below, in rising order from 0 to the length of the path; both ends among them. */
  readonly points: readonly TerrainPoint[];
  readonly freqHz: number;
  /** Effective, m. */
  readonly earthRadiusM: number;
  readonly field: 'vertical' | 'horizontal';
}

export interface TerrainPoint {
  readonly atM: number;
  readonly heightM: number;
}

/**
 * Diffraction loss of a general path, dB, by the delta-Bullington method (ITU-R P.526-15, section 4.5.2; memory): Bullington's edge for the profile
 * itself, and what a smooth earth fitted to it costs more than Bullington's edge for that smooth earth. Every profile has an answer; over a
 * smooth earth it is that of the sphere.
 */
export function terrainLossDb(path: TerrainPath): number {
  const lengthM = lengthOf(path);
  requireFinite({ nearM: path.nearM, farM: path.farM });
  requirePositive({ lengthM, freqHz: path.freqHz, earthRadiusM: path.earthRadiusM });
  const surface = smoothSurface(path);
  const [nearAboveM, farAboveM] = [path.nearM - surface.nearM, path.farM - surface.farM];
  const smooth: TerrainPath = {
    ...path,
    nearM: nearAboveM,
    farM: farAboveM,
    points: path.points.map(({ atM }) => ({ atM, heightM: 0 })),
  };
  const { freqHz, earthRadiusM, field } = path;
  const sphere = sphericalEarthLossDb({ distanceM: lengthM, nearAboveM, farAboveM, freqHz, earthRadiusM, field });
  return bullingtonLossDb(path) + Math.max(0, sphere - bullingtonLossDb(smooth));
}

const lengthOf = ({ points }: TerrainPath): number => points.at(-1)?.atM ?? 0;

/**
 * Bullington's equivalent edge, where the horizons of both ends cross, or the edge that comes nearest to a free line of sight, with the
 * correction for terrain (section 4.5.1): L + (1 - exp(-L/6)) (10 + 0.02 d), d in km.
 */
export function bullingtonLossDb(path: TerrainPath): number {
  const lengthM = lengthOf(path);
  const single = equivalentEdgeDb(path, lengthM);
  return single + (1 - Math.exp(-single / 6)) * (10 + 0.02 * (lengthM / 1000));
}

function equivalentEdgeDb({ nearM, farM, points, freqHz, earthRadiusM }: TerrainPath, lengthM: number): number {
  const inside = points
    .filter(({ atM }) => atM > 0 && atM < lengthM)
    // 500 C_e d_i (d - d_i) of the recommendation, in metres: the bulge d1 d2 / 2 R.
    .map(({ atM, heightM }) => ({ atM, topM: heightM + (atM * (lengthM - atM)) / (2 * earthRadiusM) }));
  if (inside.length === 0) return 0;
  const most = (slope: (point: { readonly atM: number; readonly topM: number }) => number) =>
    inside.reduce((best, point) => Math.max(best, slope(point)), Number.NEGATIVE_INFINITY);
  const rise = most(({ atM, topM }) => (topM - nearM) / atM);
  const line = (atM: number) => nearM + ((farM - nearM) * atM) / lengthM;
  const edge = (atM: number, topM: number) => knifeEdgeParameter(topM - line(atM), atM, lengthM - atM, freqHz);
  if (rise < (farM - nearM) / lengthM) return knifeEdgeLossDb(most(({ atM, topM }) => edge(atM, topM)));
  const back = most(({ atM, topM }) => (topM - farM) / (lengthM - atM));
  const atM = (farM - nearM + back * lengthM) / (rise + back);
  return knifeEdgeLossDb(edge(atM, nearM + rise * atM));
}

/**
 * Heights of a smooth surface at both ends: the least-squares line through the profile, lowered where obstacles stand above the line of sight,
 * and never above the ground at an end (section 4.5.2.2; as in ITU-R P.1812, attachment 1, section 5.6).
 */
function smoothSurface({ nearM, farM, points }: TerrainPath): { readonly nearM: number; readonly farM: number } {
  const lengthM = points.at(-1)?.atM ?? 0;
  let [v1, v2] = [0, 0];
  points.forEach((point, i) => {
    const before = points[i - 1];
    if (before === undefined) return;
    const step = point.atM - before.atM;
    v1 += step * (point.heightM + before.heightM);
    v2 += step * (point.heightM * (2 * point.atM + before.atM) + before.heightM * (point.atM + 2 * before.atM));
  });
  const near = (2 * v1 * lengthM - v2) / lengthM ** 2;
  const far = (v2 - v1 * lengthM) / lengthM ** 2;
  const inside = points.filter(({ atM }) => atM > 0 && atM < lengthM);
  const above = inside.map(({ atM, heightM }) => ({
    atM,
    byM: heightM - (nearM * (lengthM - atM) + farM * atM) / lengthM,
  }));
  const most = Math.max(0, ...above.map(({ byM }) => byM));
  const rise = Math.max(...above.map(({ atM, byM }) => byM / atM));
  const back = Math.max(...above.map(({ atM, byM }) => byM / (lengthM - atM)));
  const lower = (share: number) => (most > 0 ? most * share : 0);
  return {
    nearM: Math.min(near - lower(rise / (rise + back)), points[0]?.heightM ?? 0, nearM),
    farM: Math.min(far - lower(back / (rise + back)), points.at(-1)?.heightM ?? 0, farM),
  };
}
