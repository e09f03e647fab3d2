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
/** Kept between a window and a bore, or the other window. */
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
    windowAt({ low: { x: low.x, y: along }, high: { x: low.x + size.across, y: along + size.along } }, guides),
  );
  const below = firstFree(contact.low, { from: low.x, to: high.x }, (along, size) => {
    const place = { low: { x: along, y: low.y }, high: { x: along + size.along, y: low.y + size.across } };
    return left === undefined || gapMm(left, place) >= WEB_MM ? windowAt(place, guides) : undefined;
  });
  return [left, below].filter((window) => window !== undefined).map((window) => box(window.low, window.high));
}

type Size = (typeof SIZES_MM)[number];

function firstFree(
  contact: Contact,
  side: Contact,
  make: (along: number, size: Size) => Extent | undefined,
): Extent | undefined {
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

function windowAt(place: Extent, guides: readonly Guide[]): Extent | undefined {
  const free = guides.every(({ at, boreMm }) => gapMm(place, { low: at, high: at }) >= boreMm / 2 + WEB_MM);
  return free ? place : undefined;
}

/** Least distance between two upright boxes; 0 where they meet. */
function gapMm(a: Extent, b: Extent): number {
  const dx = Math.max(a.low.x - b.high.x, 0, b.low.x - a.high.x);
  const dy = Math.max(a.low.y - b.high.y, 0, b.low.y - a.high.y);
  return Math.hypot(dx, dy);
}
