import type { Hole, HolePurpose } from '@sheetwave/geometry';

/** Holes that take the same drill; they share a letter. */
export interface HoleGroup {
  /** `A`, `B`, … `Z`, `AA`, … from the smallest diameter up. */
  readonly letter: string;
  readonly diameterMm: number;
  readonly plated: boolean;
  /** For people, in the order first met: `fixing, mounting`. */
  readonly purpose: string;
  /** In reading order: from the top row down, each row from left to right. */
  readonly holes: readonly LabelledHole[];
}

export interface LabelledHole {
  /** Letter and number: `A12`. */
  readonly label: string;
  readonly hole: Hole;
}

const WORDS: Readonly<Record<HolePurpose, string>> = {
  fixing: 'fixing screw',
  feed: 'feed pin',
  coax: 'coax',
  mounting: 'mounting',
  'connector-post': 'connector post',
  'connector-pin': 'connector pin',
  'connector-flange': 'connector flange',
  clamp: 'pole clamp',
  drain: 'drain',
  gland: 'cable gland',
};

/** Sorts holes into groups of one diameter (to 1 µm) and one plating. */
export function groupHoles(holes: readonly Hole[]): readonly HoleGroup[] {
  const byDrill = new Map<string, Hole[]>();
  for (const hole of holes) {
    const key = `${Math.round(hole.diameterMm * 1000)} ${hole.plated}`;
    const group = byDrill.get(key);
    if (group === undefined) byDrill.set(key, [hole]);
    else group.push(hole);
  }
  const sorted = [...byDrill.values()].sort((a, b) => drillOrder(a[0], b[0]));
  return sorted.map((group, index) => asGroup(group, letterOf(index)));
}

function asGroup(holes: readonly Hole[], letter: string): HoleGroup {
  const ordered = [...holes].sort((a, b) => rowOf(b) - rowOf(a) || a.centre.x - b.centre.x);
  const purposes = new Set(ordered.map((hole) => WORDS[hole.purpose]));
  return {
    letter,
    diameterMm: holes[0]?.diameterMm ?? 0,
    plated: holes[0]?.plated ?? false,
    purpose: [...purposes].join(', '),
    holes: ordered.map((hole, index) => ({ label: `${letter}${index + 1}`, hole })),
  };
}

/** 1 µm: rows that differ by rounding only are one row. */
const rowOf = (hole: Hole): number => Math.round(hole.centre.y * 1000);

function drillOrder(a: Hole | undefined, b: Hole | undefined): number {
  return (a?.diameterMm ?? 0) - (b?.diameterMm ?? 0) || Number(a?.plated ?? false) - Number(b?.plated ?? false);
}

function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last;
}
