import type { Finding } from '@sheetwave/design';
import type { PlatePart } from '../assembly.ts';
import { grownBox } from '../box-grid.ts';
import { type Bounds, bounds } from '../contour-measure.ts';
import { errorFinding, mm } from '../finding.ts';
import { needsTabs, tabbedContour } from '../tabs.ts';
import { toolPath } from '../tool-path.ts';

/** What a plate takes of its sheet: the box of its outermost cut and what is left to file off, in the plane of the part. */
export interface Footprint {
  readonly part: PlatePart;
  readonly box: Bounds;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly turnable: boolean;
  readonly quantity: number;
}

/** The footprint of a plate, or why it cannot be cut from sheet: the kerf, the allowance or a bridge eats it. */
export function footprintOf(part: PlatePart): Footprint | Finding {
  try {
    const { outer } = toolPath(part.outline, part.process);
    const { allowanceMm, tabs, kerfMm } = part.process;
    if (needsTabs(outer, tabs)) tabbedContour(outer, { count: tabs.count, gapMm: tabs.widthMm + kerfMm });
    const box = grownBox(bounds(outer), Math.max(0, allowanceMm));
    const [widthMm, heightMm] = [box.maxX - box.minX, box.maxY - box.minY];
    return { part, box, widthMm, heightMm, turnable: part.keepsGrain !== true, quantity: part.quantity };
  } catch (error) {
    return uncuttable(part, error instanceof Error ? error.message : String(error));
  }
}

function uncuttable({ id, process }: PlatePart, reason: string): Finding {
  const kerf = process.compensateKerf ? `, kerf ${mm(process.kerfMm)}` : '';
  return errorFinding('cut-impossible', `part ${id}`, {
    value: reason,
    allowed: `a line to cut along (${process.label}${kerf}, allowance ${mm(process.allowanceMm)})`,
    remedy: 'choose another process, a smaller allowance or fewer bridges, or enlarge what is too narrow',
  });
}
