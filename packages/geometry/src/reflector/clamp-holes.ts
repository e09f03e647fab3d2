import type { Finding, PoleClamp } from '@sheetwave/design';
import { errorFinding, mm } from '../finding.ts';
import type { Hole, Point } from '../outline.ts';
import { type FreeFace, freeFace } from './free-face.ts';
import type { FaceLayout } from './obstacles.ts';

export interface AddedHoles {
  readonly holes: readonly Hole[];
  readonly findings: readonly Finding[];
}

const STEP_MM = 0.5;
/** Least distance between two U-bolts on a pole, mm: nearer ones do not keep the antenna from swinging (common practice, no source). */
const LEAST_DISTANCE_MM = 20;

/** Nut with its washer, whose outside diameter is about 1.2 times the width across flats (ISO 7089: 12 mm at M6). */
export const legRadiusMm = (clamp: PoleClamp): number => 0.6 * clamp.acrossMm;

/**
 * Four holes for the legs of two U-bolts, about the centre of the reflector: at the distance of the design, or as far apart as all
 * four are free of patches, fixings, harness, coax and mounting screws.
 */
export function clampHoles(layout: FaceLayout): AddedHoles {
  const { clamp } = layout.design.reflector;
  if (!clamp) return { holes: [], findings: [] };
  const face = freeFace(layout);
  const half = clamp.distanceMm === undefined ? farthestHalf(layout, clamp, face) : clamp.distanceMm / 2;
  if (half === undefined) return { holes: [], findings: [noPlace(layout, clamp, face)] };
  const legs = legsAt(clamp, half);
  const blocked = [...new Set(legs.flatMap((leg) => face.blockers(leg, roomOf(clamp))))];
  const holes = legs.map((centre): Hole => ({ purpose: 'clamp', centre, diameterMm: clamp.holeMm, plated: false }));
  return { holes, findings: blocked.length === 0 ? [] : [blockedFinding(clamp, half, blocked)] };
}

function farthestHalf({ heightMm }: FaceLayout, clamp: PoleClamp, face: FreeFace): number | undefined {
  for (let y = Math.floor(heightMm / 2 / STEP_MM) * STEP_MM; y >= LEAST_DISTANCE_MM / 2; y -= STEP_MM) {
    if (legsAt(clamp, y).every((leg) => face.blockers(leg, roomOf(clamp)).length === 0)) return y;
  }
  return undefined;
}

/** 1.5 diameters of metal beside the hole (shop rule, memory). */
const roomOf = (clamp: PoleClamp) => ({ radiusMm: legRadiusMm(clamp), edgeMm: 2 * clamp.holeMm });

function legsAt(clamp: PoleClamp, half: number): Point[] {
  const x = clamp.spacingMm / 2;
  return [
    { x: -x, y: -half },
    { x, y: -half },
    { x, y: half },
    { x: -x, y: half },
  ];
}

function noPlace(layout: FaceLayout, clamp: PoleClamp, face: FreeFace): Finding {
  const wide = clamp.spacingMm + 4 * clamp.holeMm;
  const inWay = [
    ...new Set(
      [0.2, 0.5, 0.8].flatMap((part) =>
        legsAt(clamp, (layout.heightMm / 2) * part).flatMap((leg) => face.blockers(leg, roomOf(clamp))),
      ),
    ),
  ];
  const narrow = layout.widthMm < wide;
  return {
    ...errorFinding('clamp-does-not-fit', 'reflector.clamp', {
      value: `U-bolts with legs ${mm(clamp.spacingMm)} apart`,
      allowed: narrow
        ? `need a face ${mm(wide)} wide, and this one is ${mm(layout.widthMm)}`
        : `find no place for all four legs: in the way are ${inWay.join(', ')}`,
      remedy: narrow
        ? 'widen the reflector, or hold it by a bracket on its mounting holes'
        : 'enlarge the reflector, use another pole, or hold it by a bracket on its mounting holes',
    }),
    parts: ['reflector'],
  };
}

function blockedFinding(clamp: PoleClamp, half: number, blocked: readonly string[]): Finding {
  return {
    ...errorFinding('clamp-in-the-way', 'reflector.clamp.distance', {
      value: `U-bolts ${mm(2 * half)} apart`,
      allowed: `meet ${blocked.join(', ')}`,
      remedy: 'change the distance, or leave it out to take the farthest place that is free',
    }),
    at: { x: clamp.spacingMm / 2, y: half, z: 0 },
    parts: ['reflector'],
  };
}
