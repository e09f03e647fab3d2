import type { Box, PoleClamp } from '../design.ts';
import { poleClampFor } from '../stock/pole-clamps.ts';
import type { Context } from './context.ts';

/** From the edge of the reflector to the inside of a box: a wall of 3 mm and a seal (common practice, no source). */
const WALL_MM = 8;

/** The U-bolts around the pole, or undefined for none or after reporting what is wrong. */
export function resolveClamp(context: Context): PoleClamp | undefined {
  const { clamp } = context.file.reflector;
  if (clamp === undefined) return undefined;
  const usual = poleClampFor(clamp.pole);
  const spacingMm = clamp.spacing ?? usual?.spacingMm;
  const holeMm = clamp.hole ?? usual?.holeMm;
  if (spacingMm === undefined || holeMm === undefined) {
    return context.report.error({
      code: 'missing-field',
      path: ['reflector', 'clamp'],
      value: `a pole of ${clamp.pole} mm`,
      allowed: 'is larger than any U-bolt in the table, which ends at 60 mm',
      remedy: 'measure the U-bolt and give spacing and hole',
    });
  }
  if (spacingMm < clamp.pole + holeMm * 0.8) {
    context.report.error({
      code: 'out-of-range',
      path: ['reflector', 'clamp', 'spacing'],
      value: `${spacingMm} mm`,
      allowed: `leaves no room for a pole of ${clamp.pole} mm between the legs`,
      remedy: `give at least ${Math.ceil(clamp.pole + holeMm)} mm`,
    });
  }
  return {
    poleMm: clamp.pole,
    spacingMm,
    holeMm,
    // A nut is about 1.5 times as wide as its clearance hole (ISO 4032: 10 mm at M6, 13 mm at M8).
    acrossMm: clamp.nut ?? (clamp.hole === undefined ? usual?.acrossMm : undefined) ?? 1.5 * holeMm,
    distanceMm: clamp.distance,
    standoffMm: clamp.standoff ?? 0,
  };
}

/** What a box asks for, or undefined when the file has none. */
export function resolveBox({ file: { box } }: Context): Box | undefined {
  return (
    box && {
      partOf: box.part_of,
      wallMm: box.wall ?? WALL_MM,
      drainMm: box.drain?.diameter,
      glandMm: box.gland?.diameter,
    }
  );
}
