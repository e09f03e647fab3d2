import type { Site } from '@sheetwave/design';
import {
  coherentShare,
  complex,
  EARTH_RADIUS,
  type EdgeLoss,
  earthBulgeM,
  edgeLoss,
  foliageLossDb,
  freeSpaceLossDb,
  LOW_EARTH_FACTOR,
  MEDIAN_EARTH_FACTOR,
  magnitude,
  nearestPeakHeightM,
  rainAttenuationDbPerKm,
  rainCoefficients,
  rainPathFactor,
  scale,
  secondRay,
  surfacePermittivity,
  surfaceReflection,
  type TerrainPath,
  twoRayExcessLossDb,
} from '@sheetwave/rf';
import { type Clearance, type Ends, endsOf, type GroundPoint, groundAlong, tightest } from './ground.ts';

/** The ray by way of the water or the ground. */
export interface SecondRayLoss {
  readonly surface: 'water' | 'ground';
  /** Share of the field that is thrown back. */
  readonly reflection: number;
  readonly grazingDeg: number;
  readonly pointM: number;
  /** At these very heights, dB; negative where both rays add. A few centimetres change it. */
  readonly lossDb: number;
  /** The worst that other heights or another water level can do. */
  readonly deepestDb: number;
  /** By how much to move the far antenna, up or down, to where both rays add. */
  readonly moveFarM: number;
}

/** What the path takes, piece by piece. dB. */
export interface PathLoss {
  readonly freeSpaceDb: number;
  readonly edgeDb: number;
  readonly rainDb: number;
  readonly foliageDb: number;
  /** Counted only where the second ray takes away. */
  readonly secondRayDb: number;
  readonly totalDb: number;
}

/** Rain that is passed for 0.01 % of the year. */
export interface RainOnPath {
  readonly rateMmPerHour: number;
  readonly dbPerKm: number;
  /** Over which it counts in full, m. */
  readonly effectiveM: number;
}

export interface PathReport {
  readonly distanceM: number;
  readonly ends: Ends;
  readonly loss: PathLoss;
  /** On the median earth (k = 4/3). */
  readonly clearance: Clearance;
  /** 60 % of the first zone is clear on the median earth. */
  readonly clear: boolean;
  /** On the earth of the worst hours (k = 0.6). */
  readonly lowClearance: Clearance;
  readonly lowEdgeDb: number;
  readonly rain: RainOnPath | undefined;
  readonly edges: EdgeLoss['edges'];
  /** Which part of ITU-R P.526 the loss by edges is from. */
  readonly edgeMethod: EdgeLoss['method'];
  readonly secondRay: SecondRayLoss | undefined;
  readonly points: readonly GroundPoint[];
}

/** Half of the zone's 60 % is what edges begin to cost at. */
const CLEAR_SHARE = 0.6;

/** Loss and clearance of the path of a site at a frequency, for a field in this direction. */
export function pathReport(site: Site, freqHz: number, field: 'vertical' | 'horizontal'): PathReport {
  const { path } = site;
  const ends = endsOf(site);
  const points = groundAlong(site, freqHz, MEDIAN_EARTH_FACTOR);
  const lowPoints = groundAlong(site, freqHz, LOW_EARTH_FACTOR);
  const setting = { freqHz, field };
  const edges = edgeLoss(terrainPath(ends, { points, earthFactor: MEDIAN_EARTH_FACTOR, ...setting }));
  const low = edgeLoss(terrainPath(ends, { points: lowPoints, earthFactor: LOW_EARTH_FACTOR, ...setting }));
  const clearance = tightest(points);
  const secondRayOf = clearance.share > 0 ? secondRayLoss(site, { ends, points, freqHz, field }) : undefined;
  const rain = rainOnPath(path.distanceM, freqHz, { rate: path.rainMmPerHour, field });
  const parts = {
    freeSpaceDb: freeSpaceLossDb(path.distanceM, freqHz),
    edgeDb: edges.lossDb,
    rainDb: rain === undefined ? 0 : rain.dbPerKm * (rain.effectiveM / 1000),
    foliageDb: foliageLossDb(freqHz, path.foliageM),
    secondRayDb: Math.max(0, secondRayOf?.lossDb ?? 0),
  };
  return {
    distanceM: path.distanceM,
    ends,
    loss: { ...parts, totalDb: Object.values(parts).reduce((sum, part) => sum + part, 0) },
    clearance,
    clear: clearance.share >= CLEAR_SHARE,
    lowClearance: tightest(lowPoints),
    lowEdgeDb: low.lossDb,
    rain,
    edges: edges.edges,
    edgeMethod: edges.method,
    secondRay: secondRayOf,
    points,
  };
}

interface Profile {
  readonly points: readonly GroundPoint[];
  readonly earthFactor: number;
  readonly freqHz: number;
  readonly field: 'vertical' | 'horizontal';
}

/** The profile without the bulge that it was raised by. */
function terrainPath(ends: Ends, { points, earthFactor, freqHz, field }: Profile): TerrainPath {
  const below = (atM: number) => earthBulgeM(atM, Math.max(0, ends.distanceM - atM), earthFactor);
  return {
    nearM: ends.nearM,
    farM: ends.farM,
    points: points.map(({ atM, topM }) => ({ atM, heightM: topM - below(atM) })),
    freqHz,
    earthRadiusM: earthFactor * EARTH_RADIUS,
    field,
  };
}

/** Attenuation by ITU-R P.838-3 and the effective path of P.530-17; below 1 GHz and for a dry path there is nothing to count. */
function rainOnPath(
  distanceM: number,
  freqHz: number,
  { rate, field }: { readonly rate: number; readonly field: 'vertical' | 'horizontal' },
): RainOnPath | undefined {
  if (rate === 0 || freqHz < 1e9) return undefined;
  const factor = rainPathFactor(distanceM, freqHz, rate, rainCoefficients(freqHz, field).alpha);
  const dbPerKm = rainAttenuationDbPerKm(freqHz, rate, field);
  return { rateMmPerHour: rate, dbPerKm, effectiveM: factor * distanceM };
}

interface Setting {
  readonly ends: Ends;
  readonly points: readonly GroundPoint[];
  readonly freqHz: number;
  readonly field: 'vertical' | 'horizontal';
}

/** Over the lowest ground of the path, which is where water lies. Undefined without a surface, and for an antenna not above it. */
function secondRayLoss(site: Site, { ends, freqHz, field }: Setting): SecondRayLoss | undefined {
  const { surface, roughnessM, profile, distanceM } = site.path;
  if (surface === undefined) return undefined;
  const planeM = Math.min(...(profile ?? []).map(({ groundM }) => groundM), ends.nearGroundM, ends.farGroundM);
  const [nearHeightM, farHeightM] = [ends.nearM - planeM, ends.farM - planeM];
  if (nearHeightM <= 0 || farHeightM <= 0) return undefined;
  const path = { distanceM, nearHeightM, farHeightM, freqHz };
  const { grazing, pointM } = secondRay(path);
  const mirror = surfaceReflection(surfacePermittivity(surface, freqHz), grazing, field);
  const reflection = scale(mirror, coherentShare(roughnessM, grazing, freqHz));
  const share = Math.min(0.9999, magnitude(reflection));
  return {
    surface,
    reflection: share,
    grazingDeg: (grazing * 180) / Math.PI,
    pointM,
    lossDb: Math.min(twoRayExcessLossDb(path, reflection), -20 * Math.log10(1 - share)),
    deepestDb: -20 * Math.log10(magnitude(complex(1 - share))),
    moveFarM: nearestPeakHeightM(path) - farHeightM,
  };
}
