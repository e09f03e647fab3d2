import type { Flat } from '@sheetwave/geometry';
import type { Guide } from './drill-guides.ts';
import type { Contact } from './drill-plate.ts';
import { box, type Extent } from './flat-shapes.ts';

/** Along the fence and away from it, tried in turn. mm. */
const SIZES_MM = [
  { along: 8, across: 4 },
  { along: 6, across: 3 },
  { along: 4, across: 2 },
] as const;
/** Kept between a window and a bore. */
const WEB_MM = 1.6;
const STEP_MM = 0.5;

/**
 * Openings beside each fence, where the blank touches it: a dark line between them shows that it is not pushed home. A side
 * without room has none.
 */
export function sightWindows(
  contact: { readonly left: Contact; readonly low: Contact },
  covered: Extent,
  guides: readonly Guide[],
): readonly Flat[] {
  const { low, high } = covered;
  const left = firstFree(contact.left, { from: low.y, to: high.y }, (along, size) =>
    windowAt({ x: low.x, y: along }, { x: low.x + size.across, y: along + size.along }, guides),
  );
  const below = firstFree(contact.low, { from: low.x, to: high.x }, (along, size) =>
    windowAt({ x: along, y: low.y }, { x: along + size.along, y: low.y + size.across }, guides),
  );
  return [left, below].filter((window) => window !== undefined);
}

type Size = (typeof SIZES_MM)[number];

function firstFree(
  contact: Contact,
  side: Contact,
  make: (along: number, size: Size) => Flat | undefined,
): Flat | undefined {
  for (const size of SIZES_MM) {
    // From the middle of the contact outward, off the open corner and the far end.
    const middle = (contact.from + contact.to) / 2 - size.along / 2;
    for (let away = 0; away <= (contact.to - contact.from) / 2; away += STEP_MM)
      for (const along of [middle - away, middle + away]) {
        if (along < side.from + 2 * STEP_MM || along + size.along > side.to - 2 * STEP_MM) continue;
        const made = make(along, size);
        if (made !== undefined) return made;
      }
  }
  return undefined;
}

function windowAt(low: Extent['low'], high: Extent['high'], guides: readonly Guide[]): Flat | undefined {
  const free = guides.every(({ at, boreMm }) => {
    const dx = Math.max(low.x - at.x, 0, at.x - high.x);
    const dy = Math.max(low.y - at.y, 0, at.y - high.y);
    return Math.hypot(dx, dy) >= boreMm / 2 + WEB_MM;
  });
  return free ? box(low, high) : undefined;
}
