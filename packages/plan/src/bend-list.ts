import type { Part } from '@sheetwave/geometry';

/** One bend of a rod, as it is marked on the straight blank. */
export interface RodBend {
  readonly part: string;
  /** 1 is nearest the end that is measured from. */
  readonly bend: number;
  /** From the start of the straight blank to the middle of the bend. */
  readonly atMm: number;
  readonly angleDeg: number;
  /** How far to turn the rod about itself since the bend before. */
  readonly twistDeg: number;
  readonly insideRadiusMm: number;
}

/** Every bend of every rod, in the order in which they come along it. */
export function bendList(parts: readonly Part[]): RodBend[] {
  return parts.flatMap((part) =>
    part.form !== 'rod'
      ? []
      : part.bends.map(({ atMm, angleDeg, twistDeg }, index) => ({
          part: part.id,
          bend: index + 1,
          atMm,
          angleDeg,
          twistDeg,
          insideRadiusMm: part.bendRadiusMm,
        })),
  );
}
