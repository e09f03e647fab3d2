import type { Point3, RodPart } from './assembly.ts';

type Bend = RodPart['bends'][number];

export interface BentRod {
  readonly bends: readonly Bend[];
  readonly developedLengthMm: number;
  /** Indexes of corners whose legs are too short for the bend beside them. */
  readonly shortLegs: readonly { readonly corner: number; readonly haveMm: number; readonly needMm: number }[];
}

type Vector = readonly [number, number, number];

/**
 * Bends and blank length of a round rod that follows `corners` with an inside bend radius.
 *
 * The neutral line of a solid round bar stays at its axis when the inside radius is at least about one diameter
 * (common practice), so the blank is as long as the axis: the straight legs less twice the tangent length
 * R tan(angle / 2) of each bend, plus its arc R angle, with R = inside radius + half the diameter (elementary geometry).
 *
 * @param corners at least two, in order; collinear ones are passed over.
 * @throws RangeError when two corners fall on one point or the rod turns back on itself.
 */
export function bendRod(corners: readonly Point3[], diameterMm: number, bendRadiusMm: number): BentRod {
  const points = withoutCollinear(corners);
  const radius = bendRadiusMm + diameterMm / 2;
  const legs = pairs(points).map(([from, to]) => minus(to, from));
  const lengths = legs.map(norm);
  const angles = pairs(legs).map(([before, after]) => angleBetween(before, after));
  const tangents = angles.map((angle) => radius * Math.tan(angle / 2));

  const bends: Bend[] = [];
  const shortLegs: { corner: number; haveMm: number; needMm: number }[] = [];
  let at = 0;
  lengths.forEach((length, leg) => {
    const before = tangents[leg - 1] ?? 0;
    const after = tangents[leg] ?? 0;
    const straight = length - before - after;
    if (straight < -1e-9) shortLegs.push({ corner: leg, haveMm: length, needMm: before + after });
    at += straight;
    const angle = angles[leg];
    if (angle === undefined) return;
    const arc = radius * angle;
    bends.push({ atMm: at + arc / 2, angleDeg: degrees(angle), twistDeg: degrees(twist(legs, leg)) });
    at += arc;
  });
  return { bends, developedLengthMm: at, shortLegs };
}

/** Drops corners at which the rod goes straight on. */
export function withoutCollinear(corners: readonly Point3[]): Point3[] {
  const kept: Point3[] = [];
  corners.forEach((corner, index) => {
    const before = kept.at(-1);
    const after = corners[index + 1];
    if (before && after && norm(cross(minus(corner, before), minus(after, corner))) < 1e-9) {
      if (dot(minus(corner, before), minus(after, corner)) < 0)
        throw new RangeError(`the rod turns back on itself at corner ${index}`);
      return;
    }
    kept.push(corner);
  });
  return kept;
}

/** Turn of the bending plane between the bend before and this one, about the leg between them; 0 for the first. */
function twist(legs: readonly Vector[], bend: number): number {
  const [first, leg, next] = [legs[bend - 1], legs[bend], legs[bend + 1]];
  if (!first || !leg || !next) return 0;
  const normalBefore = cross(first, leg);
  const normalAfter = cross(leg, next);
  const sign = dot(cross(normalBefore, normalAfter), leg) < 0 ? -1 : 1;
  return sign * angleBetween(normalBefore, normalAfter);
}

function pairs<T>(items: readonly T[]): [T, T][] {
  return items.slice(1).map((item, index) => [items[index] as T, item]);
}

function minus(a: Point3, b: Point3): Vector {
  return [a.x - b.x, a.y - b.y, a.z - b.z];
}
function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}
function norm(a: Vector): number {
  return Math.hypot(...a);
}
function angleBetween(a: Vector, b: Vector): number {
  const lengths = norm(a) * norm(b);
  if (!(lengths > 0)) throw new RangeError('two corners of the rod fall on one point');
  // atan2 keeps its precision near 0 and 180 degrees, where acos loses it.
  return Math.atan2(norm(cross(a, b)), dot(a, b));
}
function degrees(radians: number): number {
  return (radians * 180) / Math.PI;
}
