import type { Shown } from './shown.ts';
import type { Tier } from './tiers.ts';

/** A piece with the distance it is lifted from where it belongs. */
export interface Lifted {
  readonly shown: Shown;
  readonly liftMm: number;
  readonly tier: Tier['name'];
}

/** How high the top of a piece behind the reflector may be drawn, mm of antenna, so that the reflector does not hide it. */
export type Ceiling = (shown: Shown) => number;

export interface Gaps {
  /** Between one tier and the next, mm of antenna. */
  readonly tierMm: number;
  /** Between pieces of one tier on the same axis. */
  readonly pieceMm: number;
  readonly ceiling: Ceiling;
}

/**
 * Moves the tiers apart along z: the reflector stays, what is behind it goes down until it is seen, everything else goes up, each tier clear of
 * the one before. Pieces of a tier on one axis (washer, nut) are moved apart too.
 */
export function explode(
  tiers: readonly { readonly name: Tier['name']; readonly shown: readonly Shown[] }[],
  gaps: Gaps,
): readonly Lifted[] {
  const out: Lifted[] = [];
  let top: number | undefined;
  for (const tier of tiers.filter((one) => one.name !== 'below')) {
    const base = top === undefined ? undefined : top + gapOf(tier.name, gaps);
    const lifted = columnsOf(tier.shown).flatMap((column) => stackUp(column, base, gaps.pieceMm));
    out.push(...lifted.map(({ shown, liftMm }) => ({ shown, liftMm, tier: tier.name })));
    top = Math.max(top ?? -Infinity, ...lifted.map(({ shown, liftMm }) => shown.toMm + liftMm));
  }
  const below = tiers.find((one) => one.name === 'below')?.shown ?? [];
  const dropped = columnsOf(below).flatMap((column) => stackDown(column, gaps));
  return [...dropped.map((one) => ({ ...one, tier: 'below' as const })), ...out];
}

/** Spacers stand close to what they carry. */
const gapOf = (name: Tier['name'], gaps: Gaps): number => (name === 'spacer' ? gaps.tierMm * 0.55 : gaps.tierMm);

/** Pieces on one axis, from the lowest up. */
function columnsOf(shown: readonly Shown[]): readonly (readonly Shown[])[] {
  const columns = new Map<string, Shown[]>();
  for (const one of shown) {
    const key = columnKey(one.piece.placement.at);
    const column = columns.get(key);
    if (column === undefined) columns.set(key, [one]);
    else column.push(one);
  }
  return [...columns.values()].map((column) => column.sort((a, b) => a.fromMm - b.fromMm));
}

/** One axis to 1 µm. */
export const columnKey = (at: { readonly x: number; readonly y: number }): string =>
  `${Math.round(at.x * 1000)} ${Math.round(at.y * 1000)}`;

interface Move {
  readonly shown: Shown;
  readonly liftMm: number;
}

function stackUp(column: readonly Shown[], base: number | undefined, gap: number): readonly Move[] {
  let at = base;
  return column.map((shown) => {
    const liftMm = at === undefined ? 0 : at - shown.fromMm;
    if (at !== undefined) at = shown.toMm + liftMm + gap;
    return { shown, liftMm };
  });
}

function stackDown(column: readonly Shown[], gaps: Gaps): readonly Move[] {
  let at = Math.min(...column.map(gaps.ceiling));
  return [...column].reverse().map((shown) => {
    const liftMm = at - shown.toMm;
    at = shown.fromMm + liftMm - gaps.pieceMm;
    return { shown, liftMm };
  });
}
