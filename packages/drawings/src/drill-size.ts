import { drillsMm, nearestDrill } from '@sheetwave/design';
import { plain } from './number.ts';

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
  if (hole.plated) return `finished size ${drillName(diameterMm)}, after plating`;
  if (diameterMm > Math.max(...drillsMm))
    return `pilot ${PILOT_MM}, then hole saw or step drill; file to ${drillName(diameterMm)}`;
  const drill = drillName(nearestDrill(diameterMm));
  if (diameterMm > STEP_DRILL_FROM_MM && hole.sheetMm < THIN_SHEET_MM)
    return `pilot ${PILOT_MM}, step drill to ${drill}`;
  return drill;
}

const drillName = (diameterMm: number): string => `${plain(diameterMm)} mm`;
