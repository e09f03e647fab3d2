import type { HolePurpose, Part } from '@sheetwave/geometry';

/** Holes of one diameter, purpose and lining in one part. */
export interface HoleCount {
  readonly part: string;
  readonly purpose: HolePurpose;
  readonly diameterMm: number;
  readonly plated: boolean;
  /** In one piece of the part. */
  readonly each: number;
  /** In all pieces of one antenna. */
  readonly inAll: number;
}

/** How many holes of each kind are to be drilled, part by part, small to large. */
export function holeCounts(parts: readonly Part[]): HoleCount[] {
  return parts.flatMap(countsOfPart);
}

function countsOfPart(part: Part): HoleCount[] {
  if (part.form !== 'plate' && part.form !== 'board') return [];
  const counts = new Map<string, HoleCount>();
  for (const { purpose, diameterMm, plated } of part.outline.holes) {
    const key = `${purpose} ${diameterMm} ${plated}`;
    const each = (counts.get(key)?.each ?? 0) + 1;
    counts.set(key, { part: part.id, purpose, diameterMm, plated, each, inAll: each * part.quantity });
  }
  return [...counts.values()].sort((a, b) => a.diameterMm - b.diameterMm || (a.purpose < b.purpose ? -1 : 1));
}
