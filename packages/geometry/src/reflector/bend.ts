import type { Fold } from '@sheetwave/design';

/** One bend of a sheet. Lengths in mm. */
export interface Bend {
  /** Turned through, degrees, above 0 and below 180. */
  readonly angleDeg: number;
  readonly insideRadiusMm: number;
  readonly thicknessMm: number;
  /** Place of the neutral line from the inside as a share of the thickness, 0 to 0.5. */
  readonly kFactor: number;
}

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Length of flat sheet that becomes the bend: BA = a (R + K t), the arc of the neutral line (shop handbooks, memory). */
export function bendAllowanceMm({ angleDeg, insideRadiusMm, thicknessMm, kFactor }: Bend): number {
  return radians(angleDeg) * (insideRadiusMm + kFactor * thicknessMm);
}

/** From where a bend begins to where the outsides of its two legs would meet: (R + t) tan(a/2). */
export function setbackMm({ angleDeg, insideRadiusMm, thicknessMm }: Bend): number {
  return (insideRadiusMm + thicknessMm) * Math.tan(radians(angleDeg) / 2);
}

/**
 * By how much the flat sheet is shorter than both legs measured over the outside:
 * BD = 2 (R + t) tan(a/2) - a (R + K t) (shop handbooks, memory).
 */
export function bendDeductionMm(bend: Bend): number {
  return 2 * setbackMm(bend) - bendAllowanceMm(bend);
}

/** The bend of a folded edge: always a right angle. */
export function foldBend(fold: Fold, thicknessMm: number): Bend {
  return { angleDeg: 90, insideRadiusMm: fold.insideRadiusMm, thicknessMm, kFactor: fold.kFactor };
}
