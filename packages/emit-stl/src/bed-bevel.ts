import { combineFlats, type Flat } from '@sheetwave/geometry';
import { micro, type Spot, spotKey } from './fill.ts';

/** Corners of the lowest level as they lie on the bed, and how high they are again where they were. */
export interface BedBevel {
  readonly spots: ReadonlyMap<number, Spot>;
  readonly micro: number;
}

/** Sharper corners than this keep their place instead of running far inward. */
const LEAST_TURN = 0.25;

/**
 * Borders moved into the solid: all of them by the whole bevel, or by it only those that go on above the lowest level, which
 * letters do not, or by half or a quarter of it, or none where the solid is too thin.
 */
export function bevelled(
  loops: readonly (readonly Spot[])[],
  bevelMm: number,
  goesOn: (loop: readonly Spot[]) => boolean,
): BedBevel {
  for (const share of bevelMm > 0 ? [1, 0.5, 0.25] : [])
    for (const chosen of [() => true, goesOn]) {
      const by = micro(bevelMm * share);
      const moved = loops.map((loop) => (chosen(loop) ? loop.map((_, i) => movedCorner(loop, i, by)) : loop));
      if (by > 0 && isSound(loops, moved))
        return {
          micro: by,
          spots: new Map(loops.flatMap((loop, n) => loop.map((spot, i) => [spotKey(spot), moved[n]?.[i] ?? spot]))),
        };
    }
  return { spots: new Map(), micro: 0 };
}

function movedCorner(loop: readonly Spot[], i: number, by: number): Spot {
  const here = loop[i] ?? [0, 0];
  const [before, after] = [loop.at(i - 1) ?? here, loop[(i + 1) % loop.length] ?? here];
  const [a, b] = [inward(before, here), inward(here, after)];
  const share = 1 + a[0] * b[0] + a[1] * b[1];
  if (share < LEAST_TURN) return here;
  return [Math.round(here[0] + (by * (a[0] + b[0])) / share), Math.round(here[1] + (by * (a[1] + b[1])) / share)];
}

/** Unit vector to the left of the way from one corner to the next. */
function inward(from: Spot, to: Spot): Spot {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return [-(to[1] - from[1]) / length, (to[0] - from[0]) / length];
}

/** Every side still runs its way and no two borders cross: then the area is the same after the borders are cleaned up. */
function isSound(before: readonly (readonly Spot[])[], after: readonly (readonly Spot[])[]): boolean {
  if (!before.every((loop, i) => keepsDirections(loop, after[i] ?? []))) return false;
  const flat: Flat = after.map((loop) => loop.map(([x, y]) => ({ x: x / 1000, y: y / 1000 })));
  const cleaned = combineFlats('union', flat, []).map((loop) => loop.map(({ x, y }): Spot => [micro(x), micro(y)]));
  const sum = (loops: readonly (readonly Spot[])[]): number => loops.reduce((all, loop) => all + doubleArea(loop), 0);
  return cleaned.length === after.length && Math.abs(sum(cleaned) - sum(after)) < 1e-6 * Math.abs(sum(after));
}

function keepsDirections(before: readonly Spot[], after: readonly Spot[]): boolean {
  return before.every((from, i) => {
    const next = (i + 1) % before.length;
    const [to, movedFrom, movedTo] = [before[next] ?? from, after[i] ?? from, after[next] ?? from];
    return (to[0] - from[0]) * (movedTo[0] - movedFrom[0]) + (to[1] - from[1]) * (movedTo[1] - movedFrom[1]) > 0;
  });
}

function doubleArea(loop: readonly Spot[]): number {
  return loop.reduce((sum, p, i) => {
    const q = loop[(i + 1) % loop.length] ?? p;
    return sum + p[0] * q[1] - q[0] * p[1];
  }, 0);
}
