import type { Hole, PlatePart } from '@sheetwave/geometry';

/** Processes that follow any contour; the others cut straight or large and leave round holes to a drill. */
const CUTS_HOLES: ReadonlySet<PlatePart['process']['id']> = new Set(['laser', 'waterjet', 'etch']);

/**
 * Smallest hole the process itself makes well, in mm; undefined when it makes none.
 * Twice its smallest inside radius, and never less than the sheet is thick: below that a jet or beam leaves a ragged
 * bore (common practice, no source).
 */
export function smallestCutHoleMm({ process, sheet }: PlatePart): number | undefined {
  if (!CUTS_HOLES.has(process.id)) return undefined;
  return Math.max(2 * process.smallestRadiusMm, sheet.thicknessMm);
}

/** The holes of a plate by who makes them: the machine that cuts the outline, or a drill. */
export function splitHoles(part: PlatePart): { readonly cut: readonly Hole[]; readonly drilled: readonly Hole[] } {
  const smallest = smallestCutHoleMm(part);
  // A nanometre of tolerance: a diameter in inches must not fall on the wrong side of its own size.
  const isCut = (hole: Hole) => smallest !== undefined && hole.diameterMm >= smallest - 1e-6;
  const { holes } = part.outline;
  return { cut: holes.filter(isCut), drilled: holes.filter((hole) => !isCut(hole)) };
}
