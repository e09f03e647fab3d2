/**
 * Twist drills that can be bought singly, mm: ISO 235 / DIN 338 jobber series in 0.1 mm steps with the quarter
 * millimetre sizes that shops stock. Source: ISO 235, from memory.
 */
const TWIST_DRILLS: readonly number[] = [
  ...steps(0.5, 6, 0.1),
  ...[1.25, 1.75, 2.05, 2.25, 2.65, 2.75, 3.25, 3.75, 4.25, 4.75],
  ...steps(6.1, 13, 0.1),
].sort((a, b) => a - b);

/** Above this a twist drill grabs in thin sheet and leaves a lobed hole; a step drill does not (common practice). */
const STEP_DRILL_FROM_MM = 5;
/** Sheet thinner than this counts as thin: a step of a step drill is about this high (common practice). */
const THIN_SHEET_MM = 3;
const PILOT_MM = 3;

/** What to put into the chuck for a finished hole, in words. */
export function drillAdvice(hole: {
  readonly diameterMm: number;
  readonly plated: boolean;
  readonly sheetMm: number;
}): string {
  const { diameterMm } = hole;
  if (hole.plated) return `finished size, ${drillName(diameterMm)} before plating adds copper`;
  const largest = TWIST_DRILLS.at(-1) ?? 0;
  if (diameterMm > largest) return `pilot ${PILOT_MM}, then hole saw or step drill; file to ${drillName(diameterMm)}`;
  const drill = drillName(nearestDrill(diameterMm));
  if (diameterMm > STEP_DRILL_FROM_MM && hole.sheetMm < THIN_SHEET_MM)
    return `pilot ${PILOT_MM}, step drill to ${drill}`;
  return drill;
}

/** The stocked drill that comes nearest; of two equally near ones the smaller, because a hole can be opened but not closed. */
export function nearestDrill(diameterMm: number): number {
  let best = TWIST_DRILLS[0] ?? diameterMm;
  for (const drill of TWIST_DRILLS) if (Math.abs(drill - diameterMm) < Math.abs(best - diameterMm) - 1e-9) best = drill;
  return best;
}

const drillName = (diameterMm: number): string => `${Number(diameterMm.toFixed(2))} mm`;

function steps(from: number, to: number, by: number): readonly number[] {
  const count = Math.round((to - from) / by) + 1;
  return Array.from({ length: count }, (_, index) => Math.round((from + index * by) * 100) / 100);
}
