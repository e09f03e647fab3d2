import type { Point3, PrintedSpacerPart, RodPart, TubePart } from '../assembly.ts';
import type { Measurement } from '../measure.ts';

/** Diameter, blank, bend radius, and each leg between the corners of the axis. */
export function rodMeasures(part: RodPart): Measurement[] {
  const one = (what: string, valueMm: number): Measurement => ({ part: part.id, what, valueMm, count: 1 });
  const legs = part.corners.slice(1).flatMap((to, i) => {
    const from = part.corners[i];
    return from === undefined ? [] : [one(`leg ${i + 1}`, distance(from, to))];
  });
  const bend = part.bends.length === 0 ? [] : [one('inside bend radius', part.bendRadiusMm)];
  const bends = part.bends.map(({ atMm }, i) => one(`bend ${i + 1} from the end of the blank`, atMm));
  return [
    one('diameter', part.rod.diameterMm),
    one('developed length', part.developedLengthMm),
    ...bend,
    ...legs,
    ...bends,
  ];
}

export function tubeMeasures(part: TubePart): Measurement[] {
  const one = (what: string, valueMm: number): Measurement => ({ part: part.id, what, valueMm, count: 1 });
  return [one('outside diameter', part.tube.outerMm), one('bore', part.tube.boreMm), one('length', part.lengthMm)];
}

export function spacerMeasures(part: PrintedSpacerPart): Measurement[] {
  const one = (what: string, valueMm: number): Measurement => ({ part: part.id, what, valueMm, count: 1 });
  return [one('height', part.heightMm), one('outside diameter', part.outerMm), one('bore', part.boreMm)];
}

function distance(a: Point3, b: Point3): number {
  return Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z);
}
