import type { RodPart } from '@sheetwave/geometry';
import type { Print } from './print.ts';

/** Where a bend is marked on the straight blank. */
export interface BendMark {
  /** In the order in which the bends are made, from 1. */
  readonly order: number;
  /** From the end of the blank that lies against the stop to where the bend begins, as seen from the side that is held; mm. */
  readonly atMm: number;
  /** Which side of the mark lies in the groove while it is bent: toward the stop, or away from it. */
  readonly held: 'stop-side' | 'far-side';
  /** Straight rod past the bend, which the hand bends by; mm. */
  readonly leverMm: number;
}

export interface BendPlan {
  readonly marks: readonly BendMark[];
  /** Distinct bend angles, largest first, as they are to be once let go, and as they are to be bent. Degrees. */
  readonly angles: readonly {
    readonly angleDeg: number;
    readonly bendToDeg: number;
    readonly mandrelRadiusMm: number;
  }[];
}

/**
 * Bends in order along the rod, starting at the stop. The longer straight side is held: the blank still straight beyond the
 * bend, or what lies before it.
 *
 * Spring-back: a bend keeps the length of its neutral line while it opens, so (r + d/2) · angle before = (R + d/2) · angle
 * after (shop handbooks give it as K = (2R/t + 1) / (2r/t + 1); memory). The mandrel's radius r follows from the radius R
 * and the angle asked for, and the angle by which the rod springs back.
 */
export function bendPlan(rod: RodPart, print: Print): BendPlan {
  const radius = rod.bendRadiusMm + rod.rod.diameterMm / 2;
  const spans = rod.bends.map(({ atMm, angleDeg }) => {
    const half = (radius * angleDeg * Math.PI) / 360;
    return { from: atMm - half, to: atMm + half };
  });
  const marks = spans.map((span, k): BendMark => {
    const before = span.from - (spans[k - 1]?.to ?? 0);
    const after = (spans[k + 1]?.from ?? rod.developedLengthMm) - span.to;
    const blank = rod.developedLengthMm - span.to;
    return blank >= before
      ? { order: k + 1, atMm: span.to, held: 'far-side', leverMm: before }
      : { order: k + 1, atMm: span.from, held: 'stop-side', leverMm: after };
  });
  const angles = [...new Set(rod.bends.map(({ angleDeg }) => Number(angleDeg.toFixed(3))))].sort((a, b) => b - a);
  return {
    marks,
    angles: angles.map((angleDeg) => {
      const bendToDeg = angleDeg + print.springBackDeg;
      const mandrelRadiusMm = (radius * angleDeg) / bendToDeg - rod.rod.diameterMm / 2;
      return { angleDeg, bendToDeg, mandrelRadiusMm };
    }),
  };
}
