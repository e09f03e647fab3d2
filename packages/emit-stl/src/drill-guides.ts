import type { Hole, Point } from '@sheetwave/geometry';
import { type Print, short } from './print.ts';

/** Larger holes are opened up with a step drill; the jig guides a pilot for it (shop practice, memory). */
const LARGEST_DRILL_MM = 6;
const PILOT_MM = 3;
/** Wall of a bushing. */
const LEAST_BUSHING_WALL_MM = 0.75;
/** Two lines of a 0.4 mm nozzle (common practice). */
const LEAST_WEB_MM = 0.8;

/** One bore of a drilling jig. */
export interface Guide {
  readonly at: Point;
  /** Drill that goes through it. */
  readonly drillMm: number;
  /** Bore as modelled: a bushing or the drill, and the printer's hole allowance. */
  readonly boreMm: number;
}

export interface Guides {
  readonly guides: readonly Guide[];
  readonly notes: readonly string[];
}

/** A bore for each hole: for a bushing where one is asked for and fits, else for the drill itself, or its pilot. */
export function guidesFor(holes: readonly Hole[], print: Print, name: string): Guides {
  const guides = holes.map(({ centre, diameterMm }) => guideFor(centre, diameterMm, print));
  const large = holes.filter(({ diameterMm }) => diameterMm > LARGEST_DRILL_MM).map(({ diameterMm }) => diameterMm);
  const plain = guides.filter((guide) => print.bushingMm !== undefined && guide.boreMm < print.bushingMm);
  const notes = [
    ...[...new Set(large)].map(
      (mm) =>
        `drilling jig of ${name}: a hole of ${short(mm)} mm gets a pilot of ${PILOT_MM} mm; open it with a step drill`,
    ),
    ...[...new Set(plain.map(({ drillMm }) => drillMm))].map(
      (mm) =>
        `drilling jig of ${name}: a drill of ${short(mm)} mm goes through the print itself, it does not fit a bushing of ${short(print.bushingMm ?? 0)} mm`,
    ),
  ];
  return { guides, notes };
}

function guideFor(at: Point, diameterMm: number, print: Print): Guide {
  const drillMm = diameterMm > LARGEST_DRILL_MM ? PILOT_MM : diameterMm;
  const inBushing = print.bushingMm !== undefined && drillMm + 2 * LEAST_BUSHING_WALL_MM <= print.bushingMm;
  return { at, drillMm, boreMm: (inBushing ? (print.bushingMm ?? 0) : drillMm) + print.holeAllowanceMm };
}

/** The first two bores with too little left between them. */
export function crowded(guides: readonly Guide[]): readonly [Guide, Guide] | undefined {
  for (const [i, a] of guides.entries())
    for (const b of guides.slice(i + 1))
      if (Math.hypot(a.at.x - b.at.x, a.at.y - b.at.y) < (a.boreMm + b.boreMm) / 2 + LEAST_WEB_MM) return [a, b];
  return undefined;
}

/** A drill is guided along two of its diameters, within what a hand can hold straight (shop practice, memory). */
export const guideLengthMm = (guides: readonly Guide[]): number =>
  Math.min(12, Math.max(6, ...guides.map(({ drillMm }) => 2 * drillMm)));
