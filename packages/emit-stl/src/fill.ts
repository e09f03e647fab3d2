import { type Flat, type Point, trianglesOf } from '@sheetwave/geometry';

/** A corner in whole micrometres, so that what should meet can be compared exactly. */
export type Spot = readonly [number, number];
export type Side = readonly [Spot, Spot];
export type Facet2 = readonly [Spot, Spot, Spot];

export const micro = (mm: number): number => Math.round(mm * 1000) + 0;
export const toSpot = ({ x, y }: Point): Spot => [micro(x), micro(y)];
const toPoint = ([x, y]: Spot): Point => ({ x: x / 1000, y: y / 1000 });
/** A number of its own for every corner within 16 m of the origin: text would take far longer. */
export const spotKey = ([x, y]: Spot): number => (x + 2 ** 24) * 2 ** 25 + (y + 2 ** 24);

/** Tells whether a side is one of these. */
function oneOf(sides: Iterable<Side>): (side: Side) => boolean {
  const ends = new Map<number, Set<number>>();
  for (const [from, to] of sides) {
    const key = spotKey(from);
    const known = ends.get(key);
    if (known === undefined) ends.set(key, new Set([spotKey(to)]));
    else known.add(spotKey(to));
  }
  return ([from, to]) => ends.get(spotKey(from))?.has(spotKey(to)) === true;
}

/** Sides of closed loops, in order. */
export function sidesOf(loops: readonly (readonly Spot[])[]): readonly Side[] {
  return loops.flatMap((loop) => loop.map((from, i): Side => [from, loop[(i + 1) % loop.length] ?? from]));
}

/** What is left of sides when those of `less` are taken away: sides in both go, the others of `less` come in turned round. */
export function sidesWithout(sides: readonly Side[], less: readonly Side[]): readonly Side[] {
  const [isMine, isTheirs] = [oneOf(sides), oneOf(less)];
  const kept = sides.filter((side) => !isTheirs(side));
  const turned = less.filter((side) => !isMine(side)).map(([from, to]): Side => [to, from]);
  return [...kept, ...turned];
}

/**
 * Triangles that fill what lies to the left of closed sides, counter-clockwise. Every side is a side of exactly one triangle.
 * Throws when the sides do not close.
 */
export function fill(sides: readonly Side[]): readonly Facet2[] {
  if (sides.length === 0) return [];
  const flat: Flat = loopsOf(sides).map((loop) => loop.map(toPoint));
  const rough = trianglesOf(flat)
    .map(([a, b, c]): Facet2 => [toSpot(a), toSpot(b), toSpot(c)])
    .filter(([a, b, c]) => turn(a, b, c) !== 0);
  return splitAtCorners(rough, sides);
}

/** Chains sides to loops; where several go on from one corner, the one farthest to the left, so that loops only touch. */
function loopsOf(sides: readonly Side[]): readonly (readonly Spot[])[] {
  const from = new Map<number, Side[]>();
  for (const side of sides) {
    const there = from.get(spotKey(side[0]));
    if (there === undefined) from.set(spotKey(side[0]), [side]);
    else there.push(side);
  }
  const loops: Spot[][] = [];
  for (const start of sides) {
    if (!take(from, start)) continue;
    const loop: Spot[] = [start[0]];
    for (let here = start; spotKey(here[1]) !== spotKey(start[0]); ) {
      const next = leftmost(here, from.get(spotKey(here[1])) ?? []);
      if (next === undefined || !take(from, next)) throw new Error(`a face stays open at ${here[1].join()}`);
      loop.push(next[0]);
      here = next;
    }
    loops.push(loop);
  }
  return loops;
}

function take(from: Map<number, Side[]>, side: Side): boolean {
  const there = from.get(spotKey(side[0])) ?? [];
  const index = there.indexOf(side);
  if (index >= 0) there.splice(index, 1);
  return index >= 0;
}

function leftmost([before, corner]: Side, choices: readonly Side[]): Side | undefined {
  const heading = Math.atan2(corner[1] - before[1], corner[0] - before[0]);
  const left = ([, to]: Side): number => {
    const angle = Math.atan2(to[1] - corner[1], to[0] - corner[0]) - heading;
    return Math.atan2(Math.sin(angle), Math.cos(angle));
  };
  return choices.length < 2 ? choices[0] : choices.reduce((best, each) => (left(each) > left(best) ? each : best));
}

/** The triangulation passes over corners in line with their neighbours: triangles beside them are split there. */
function splitAtCorners(triangles: readonly Facet2[], sides: readonly Side[]): readonly Facet2[] {
  const isWanted = oneOf(sides);
  const isPresent = oneOf(triangles.flatMap((t) => sidesOf([t])));
  const corners = [...new Map(sides.map(([spot]) => [spotKey(spot), spot])).values()];
  const isLoose = ([from, to]: Side): boolean => !isWanted([from, to]) && !isPresent([to, from]);
  const done: Facet2[] = [];
  const waiting = [...triangles];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const parts = splitOnce(next, isLoose, corners);
    if (parts === undefined) done.push(next);
    else waiting.push(...parts);
  }
  return done;
}

function splitOnce(
  [a, b, c]: Facet2,
  isLoose: (side: Side) => boolean,
  corners: readonly Spot[],
): readonly Facet2[] | undefined {
  for (const [from, to, third] of [
    [a, b, c],
    [b, c, a],
    [c, a, b],
  ] as const) {
    if (!isLoose([from, to])) continue;
    const on = corners.find((spot) => liesInside(spot, from, to));
    if (on !== undefined)
      return [
        [from, on, third],
        [on, to, third],
      ];
  }
  return undefined;
}

function liesInside(spot: Spot, from: Spot, to: Spot): boolean {
  const along = (spot[0] - from[0]) * (to[0] - from[0]) + (spot[1] - from[1]) * (to[1] - from[1]);
  const length2 = (to[0] - from[0]) ** 2 + (to[1] - from[1]) ** 2;
  return along > 0 && along < length2 && turn(from, to, spot) === 0;
}

const turn = (a: Spot, b: Spot, c: Spot): number => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
