import type { Assembly } from '@sheetwave/geometry';
import { halfExtents } from './convex.ts';
import type { HeldLayer, StackView } from './stack-view.ts';

/** How far a ledge reaches under a layer, mm. */
const LEDGE_MM = 1.5;
const LEAST_LEDGE_MM = 0.5;
/** Stiff enough to hold by hand; where an array is tight, down to two lines of a 0.4 mm nozzle (common practice). */
const WALL_MM = 2.4;
const LEAST_WALL_MM = 0.8;
/** Free around a soldered feed for the joint and its heat. */
const FEED_ROOM_MM = 2;
/** Share of a layer's half width, in the middle, that the arms leave open. */
const OPEN_SHARE = 0.35;
/** How far an arm reaches past a layer's side at least, so that the layer cannot slip out endways. */
const LEAST_ARM_MM = 1;

type Print = Assembly['design']['print'];

/** Sizes of a jig half in the axes of its stack; the halves part along x. All mm. */
export interface JigSizes {
  readonly clearanceMm: number;
  readonly wallMm: number;
  /** Outer face at x = ∓ this. */
  readonly outerX: number;
  /** Ends at y = ± this. */
  readonly halfY: number;
  /** For each layer: its arms end this far from the middle, and its ledges reach this far under it. */
  readonly layers: readonly { readonly reachX: number; readonly ledgeMm: number }[];
  /** How far a half moves sideways before it can be lifted past every layer. */
  readonly travelMm: number;
}

/**
 * Sizes that hold every layer and come off again between the neighbours, or why there are none.
 * Arms end early enough for a half to be lifted after at most `mostTravelMm` sideways.
 */
export function jigSizes(view: StackView, print: Print, mostTravelMm = Infinity): JigSizes | string {
  const clearanceMm = print.fitClearanceMm;
  const halves = view.layers.map((layer) => halfExtents(layer.outline));
  const widest = Math.max(...halves.map((h) => h.x));
  const longest = Math.max(...halves.map((h) => h.y));
  const sideways = view.pitch.x - 2 * widest - 2 * clearanceMm;
  const endways = view.pitch.y - 2 * longest - 2 * clearanceMm;
  // From one layer upward, the widest that a half must clear when it is lifted.
  const above = halves.map((_, k) => Math.max(...halves.slice(k).map((h) => h.x)));
  const travel = (reach: readonly number[]): number =>
    Math.max(...above.map((x, k) => x + clearanceMm - (reach[k] ?? 0)));

  const longestReach = halves.map((h) => h.x - LEAST_ARM_MM);
  const wallMm = Math.min(Math.max(WALL_MM, print.wallMm), sideways - travel(longestReach), endways);
  if (wallMm < LEAST_WALL_MM) return `there is no room for a wall of ${LEAST_WALL_MM} mm between neighbouring stacks`;
  const open = Math.max(...view.feeds.map((feed) => armLimit(view, feed)), ...stems(view, clearanceMm));
  const allowed = Math.min(mostTravelMm, sideways - wallMm);
  const layers = view.layers.map((layer, k) => ({
    reachX: Math.max(open, OPEN_SHARE * (halves[k]?.x ?? 0), (above[k] ?? 0) + clearanceMm - allowed),
    ledgeMm: ledgeMm(view, layer, clearanceMm),
  }));
  if (layers.some(({ reachX }, k) => reachX > (longestReach[k] ?? 0) + 1e-9))
    return 'the feed or the harness leaves no place for arms that hold every layer';
  if (layers.some((layer) => layer.ledgeMm < LEAST_LEDGE_MM)) return 'a layer is too small to rest on a ledge';
  return {
    clearanceMm,
    wallMm,
    outerX: widest + clearanceMm + wallMm,
    halfY: longest + clearanceMm + wallMm,
    layers,
    travelMm: travel(layers.map((layer) => layer.reachX)),
  };
}

/**
 * No half comes farther from the centre of its stack than this, along either axis: moved aside by the half width of the widest layer,
 * its outer face is a half width and a wall beyond that, with a clearance for each step.
 */
export const mostReachMm = (largestHalfMm: number, print: Print): number =>
  2 * largestHalfMm + 3 * print.fitClearanceMm + Math.max(WALL_MM, print.wallMm);

/** True when a wall is thinner than one that has all the room it wants. */
export const isSlim = (sizes: JigSizes, print: Print): boolean => sizes.wallMm < Math.max(WALL_MM, print.wallMm);

type Feed = StackView['feeds'][number];

/** A feed at the end of the stack keeps the arms away; one at its side lies between them. */
function armLimit(view: StackView, feed: Feed): number {
  return liesAside(view, feed) ? 0 : Math.abs(feed.at.x) + feed.radiusMm + FEED_ROOM_MM;
}

function liesAside(view: StackView, feed: Feed): boolean {
  const shortest = Math.min(...view.layers.map((layer) => halfExtents(layer.outline).y));
  return Math.abs(feed.at.y) + feed.radiusMm + FEED_ROOM_MM <= shortest - LEDGE_MM;
}

/** Conductors that run along the parting plane keep the arms away too. */
function stems(view: StackView, clearanceMm: number): readonly number[] {
  const narrowest = Math.min(...view.layers.map((layer) => halfExtents(layer.outline).x));
  return view.obstacles.flatMap((obstacle) => {
    const far = Math.max(...obstacle.outline.map((p) => Math.abs(p.x))) + clearanceMm;
    return far <= narrowest / 2 ? [far] : [];
  });
}

function ledgeMm(view: StackView, layer: HeldLayer, clearanceMm: number): number {
  const half = halfExtents(layer.outline);
  const core = Math.min(half.x, half.y) - view.coreRadiusMm - clearanceMm;
  const feeds = view.feeds
    .filter((feed) => liesAside(view, feed))
    .map((feed) => half.x - Math.abs(feed.at.x) - feed.radiusMm - clearanceMm);
  return Math.min(LEDGE_MM, core, ...feeds);
}
