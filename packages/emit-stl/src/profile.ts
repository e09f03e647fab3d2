import { type Convex, halfExtents, moveSides } from './convex.ts';

/** A straight stretch of an inner face: height above the bed from one place along it to another. mm. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly fromHeight: number;
  readonly toHeight: number;
}

/** Grid of the jig, 1 µm: coordinates that should meet then meet exactly. */
export const onGrid = (mm: number): number => Math.round(mm * 1000) / 1000 + 0;

/**
 * The inner face of a jig half at one height of the stack. The half lies on its outer face, at x = −`outerX` of the stack,
 * and its height there is how far it reaches toward the middle: up to the outline, swept away from it so that the half
 * slides off sideways, and past the ends of the outline up to x = −`reachX`. Along y from −`halfY` to `halfY`.
 *
 * @param outline symmetric in both axes; `clearanceMm` beyond it stays free (below zero the face reaches under it).
 */
export function innerFace(
  outline: Convex,
  sizes: { readonly clearanceMm: number; readonly outerX: number; readonly reachX: number; readonly halfY: number },
): readonly Stretch[] {
  const { outerX, reachX, halfY } = sizes;
  const chain = upperRight(moveSides(outline, sizes.clearanceMm));
  const arm = onGrid(outerX - reachX);
  const beside: Stretch[] = [];
  for (const [i, here] of chain.entries()) {
    const next = chain[i + 1];
    if (next === undefined || here.x <= reachX) break;
    const share = next.x >= reachX ? 1 : (here.x - reachX) / (here.x - next.x);
    const to = onGrid(here.y + share * (next.y - here.y));
    const from = beside.at(-1)?.to ?? 0;
    const fromHeight = beside.at(-1)?.toHeight ?? onGrid(outerX - here.x);
    if (to > from) beside.push({ from, to, fromHeight, toHeight: onGrid(outerX - Math.max(next.x, reachX)) });
  }
  const end = beside.at(-1)?.to ?? 0;
  const half = end < halfY ? [...beside, { from: end, to: halfY, fromHeight: arm, toHeight: arm }] : beside;
  return joinMiddle([...half.map(mirrored).reverse(), ...half]);
}

/** Corners in the quarter of positive x and y, upward, from y = 0 to the top of the polygon. */
function upperRight(convex: Convex): readonly { readonly x: number; readonly y: number }[] {
  const upper = convex.filter((p) => p.x >= -1e-9 && p.y > 1e-9).sort((a, b) => a.y - b.y || b.x - a.x);
  return [{ x: halfExtents(convex).x, y: 0 }, ...upper];
}

const mirrored = ({ from, to, fromHeight, toHeight }: Stretch): Stretch => ({
  from: 0 - to,
  to: 0 - from,
  fromHeight: toHeight,
  toHeight: fromHeight,
});

/** One stretch instead of two where the face runs straight through the middle. */
function joinMiddle(stretches: readonly Stretch[]): readonly Stretch[] {
  return stretches.flatMap((stretch, i) => {
    const level = (s: Stretch | undefined): boolean => s !== undefined && s.fromHeight === s.toHeight;
    const [before, next] = [stretches[i - 1], stretches[i + 1]];
    if (stretch.from === 0 && before?.to === 0 && level(stretch) && level(before)) return [];
    if (stretch.to === 0 && next?.from === 0 && level(stretch) && level(next)) return [{ ...stretch, to: next.to }];
    return [stretch];
  });
}

/** Height of a face at `y`, taken from the stretch that holds `inside`; beyond that stretch, the height at its end. */
export function heightAt(face: readonly Stretch[], y: number, inside: number): number {
  const stretch = face.find((s) => s.from <= inside && inside <= s.to);
  if (stretch === undefined) throw new Error(`no inner face at ${inside} mm`);
  const { from, to, fromHeight, toHeight } = stretch;
  if (y >= to) return toHeight;
  if (y <= from) return fromHeight;
  return onGrid(fromHeight + ((y - from) / (to - from)) * (toHeight - fromHeight));
}
