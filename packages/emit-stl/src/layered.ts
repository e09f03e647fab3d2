import { combineFlats, type Flat } from '@sheetwave/geometry';
import { bevelled } from './bed-bevel.ts';
import { type Facet2, fill, micro, type Side, type Spot, sidesOf, sidesWithout, spotKey, toSpot } from './fill.ts';
import type { Triangle, Vertex } from './mesh.ts';

/** Everything up to `topMm` from the level below. */
export interface Level {
  readonly flat: Flat;
  readonly topMm: number;
}

/** Corners nearer than this to a side become corners of it: rounding to the grid of 1 µm moves them by less. */
const NEAR_MICRO = 1.5;
/** Larger differences between levels are not rounding. mm². */
const ROUNDING_MM2 = 1e-3;

/**
 * The closed surface of a solid built from flat levels, from the bed upward. Of two levels one lies inside the other.
 * The lowest `bevelMm` narrow toward the bed at 45°, as far as there is room. Every corner of a facet is a corner of its
 * neighbours. Throws when a level neither holds nor lies in the one below.
 */
export function layered(levels: readonly Level[], bevelMm = 0): readonly Triangle[] {
  const loops = noded(levels.map(({ flat }) => flat.map((loop) => loop.map(toSpot))));
  const sides = loops.map(sidesOf);
  const heights = [0, ...levels.map(({ topMm }) => micro(topMm))];
  const facets: Triangle[] = [];
  const first = levels[0];
  if (first === undefined) throw new Error('a solid needs a level');
  const above = new Set((loops[1] ?? loops[0] ?? []).flat().map(spotKey));
  const goesOn = (loop: readonly Spot[]): boolean => loop.every((spot) => above.has(spotKey(spot)));
  const bed = bevelled(loops[0] ?? [], Math.min(bevelMm, 0.8 * first.topMm), goesOn);
  const bedSpot = (spot: Spot): Spot => bed.spots.get(spotKey(spot)) ?? spot;
  const bedSides = (sides[0] ?? []).map(([from, to]): Side => [bedSpot(from), bedSpot(to)]);
  facets.push(...fill(bedSides).map((facet) => facing(facet, 0, 'down')));
  for (const [k, levelSides] of sides.entries()) {
    const [low = 0, high = 0] = heights.slice(k, k + 2);
    const from = k === 0 ? bed.micro : low;
    if (k === 0 && bed.micro > 0)
      facets.push(...levelSides.flatMap((side) => wall(side, [0, from], [bedSpot(side[0]), bedSpot(side[1])])));
    facets.push(...levelSides.flatMap((side) => wall(side, [from, high], side)));
    facets.push(...face(levels, sides, k).map((facet) => facet(high)));
  }
  return facets;
}

/** Where level k ends: what it does not share with the next one looks up, what the next one has beyond it looks down. */
function face(
  levels: readonly Level[],
  sides: readonly (readonly Side[])[],
  k: number,
): readonly ((height: number) => Triangle)[] {
  const [here, above] = [levels[k]?.flat ?? [], levels[k + 1]?.flat ?? []];
  const [mine, theirs] = [sides[k] ?? [], sides[k + 1] ?? []];
  const grows = area(combineFlats('difference', above, here)) > ROUNDING_MM2;
  if (grows && area(combineFlats('difference', here, above)) > ROUNDING_MM2)
    throw new Error(`level ${k + 1} neither holds nor lies in level ${k}`);
  const facets = grows ? fill(sidesWithout(theirs, mine)) : fill(sidesWithout(mine, theirs));
  return facets.map((facet) => (height) => facing(facet, height, grows ? 'down' : 'up'));
}

/** Every side gets the corners of all levels that lie on it, so that walls and faces meet corner to corner. */
function noded(levels: readonly (readonly (readonly Spot[])[])[]): readonly (readonly (readonly Spot[])[])[] {
  const corners = [...new Map(levels.flat(2).map((spot) => [spotKey(spot), spot])).values()].sort(
    (a, b) => a[0] - b[0],
  );
  const split = (loop: readonly Spot[]): readonly Spot[] =>
    sidesOf([loop]).flatMap(([from, to]) => [from, ...cornersOn(corners, from, to)]);
  return levels.map((loops) => loops.map(split));
}

function cornersOn(sorted: readonly Spot[], from: Spot, to: Spot): readonly Spot[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy);
  const [low, high] = [Math.min(from[0], to[0]) - NEAR_MICRO, Math.max(from[0], to[0]) + NEAR_MICRO];
  const found: { readonly spot: Spot; readonly along: number }[] = [];
  for (let i = firstAtLeast(sorted, low); i < sorted.length; i++) {
    const spot = sorted[i];
    if (spot === undefined || spot[0] > high) break;
    const [x, y] = [spot[0] - from[0], spot[1] - from[1]];
    const along = (x * dx + y * dy) / length;
    // What is as near to an end of the side is taken for that end.
    if (along <= NEAR_MICRO || along >= length - NEAR_MICRO) continue;
    if (Math.abs(x * dy - y * dx) / length <= NEAR_MICRO) found.push({ spot, along });
  }
  return found.sort((a, b) => a.along - b.along).map(({ spot }) => spot);
}

function firstAtLeast(sorted: readonly Spot[], x: number): number {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle]?.[0] ?? Infinity) < x) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** A wall over a side, its solid on the left; `foot` is the side at the lower of the two heights. */
export function wall([from, to]: Side, [low, high]: readonly [number, number], foot: Side): readonly Triangle[] {
  const [a, b, c, d] = [at(foot[0], low), at(foot[1], low), at(to, high), at(from, high)];
  return [
    [a, b, c],
    [a, c, d],
  ];
}

export function facing([a, b, c]: Facet2, height: number, way: 'up' | 'down'): Triangle {
  return way === 'up' ? [at(a, height), at(b, height), at(c, height)] : [at(a, height), at(c, height), at(b, height)];
}

const at = ([x, y]: Spot, height: number): Vertex => [x / 1000, y / 1000, height / 1000];

export function area(flat: Flat): number {
  let twice = 0;
  for (const loop of flat)
    for (const [i, p] of loop.entries()) {
      const q = loop[(i + 1) % loop.length] ?? p;
      twice += p.x * q.y - q.x * p.y;
    }
  return twice / 2;
}
