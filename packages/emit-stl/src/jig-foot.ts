import { clipToBox } from './convex.ts';
import type { JigSizes } from './jig-sizes.ts';
import type { Obstacle, StackView } from './stack-view.ts';

/** Resolution of the openings along y, mm. */
const STEP_MM = 0.25;
/** A foot keeps at least this much of its length. */
const LEAST_FOOT_MM = 4;
/** Left above an opening, under the first layer. */
const LEAST_BRIDGE_MM = 1;

/** How the foot of a jig half lets the harness through. */
export interface Foot {
  /** Along y, ascending, the same for both halves and either way round. */
  readonly openings: readonly { readonly from: number; readonly to: number }[];
  /** Height of the openings, mm; 0 when there are none. */
  readonly openingMm: number;
}

/**
 * Openings in the foot wherever a conductor of any element lies on the way of a half, from where it stands to where it has
 * been pulled off. Or why the foot cannot make way.
 */
export function jigFoot(view: StackView, sizes: JigSizes): Foot | string {
  const inner = Math.min(...sizes.layers.map((layer) => layer.reachX));
  const box = { inner, outer: sizes.outerX + sizes.travelMm, halfY: sizes.halfY };
  const near = view.obstacles.filter((obstacle) => hits(obstacle, { ...box, from: -box.halfY, to: box.halfY }, 0));
  if (near.length === 0) return { openings: [], openingMm: 0 };
  const openingMm = Math.max(...near.map((obstacle) => obstacle.topMm)) + sizes.clearanceMm;
  const underside = view.layers[0]?.undersideMm ?? 0;
  if (openingMm > underside - LEAST_BRIDGE_MM) return 'the harness runs too close under the first patch';
  const openings = blockedSpans(near, box, sizes.clearanceMm);
  const lost = openings.reduce((sum, { from, to }) => sum + to - from, 0);
  if (2 * sizes.halfY - lost < LEAST_FOOT_MM) return 'the harness runs where its feet would stand';
  return { openings, openingMm };
}

interface Box {
  readonly inner: number;
  readonly outer: number;
  readonly halfY: number;
}

function blockedSpans(obstacles: readonly Obstacle[], box: Box, marginMm: number): Foot['openings'] {
  const count = Math.ceil(box.halfY / STEP_MM);
  const upper = Array.from({ length: count }, (_, i) => ({
    from: i * STEP_MM,
    to: Math.min(box.halfY, (i + 1) * STEP_MM),
  })).filter(({ from, to }) =>
    obstacles.some(
      (o) => hits(o, { ...box, from, to }, marginMm) || hits(o, { ...box, from: -to, to: -from }, marginMm),
    ),
  );
  return joinSpans([...upper.map(({ from, to }) => ({ from: -to, to: 0 - from })).reverse(), ...upper]);
}

function joinSpans(spans: Foot['openings']): Foot['openings'] {
  const joined: { from: number; to: number }[] = [];
  for (const span of spans) {
    const last = joined.at(-1);
    if (last !== undefined && last.to === span.from) last.to = span.to;
    else joined.push({ ...span });
  }
  return joined;
}

/** Whether a conductor, grown by a margin, meets the way of either half between two places along y. */
function hits(
  obstacle: Obstacle,
  box: Box & { readonly from: number; readonly to: number },
  marginMm: number,
): boolean {
  const inner = Math.max(0, box.inner - marginMm);
  const [low, high] = [box.from - marginMm, box.to + marginMm];
  const outer = box.outer + marginMm;
  const left = clipToBox(obstacle.outline, { x: -outer, y: low }, { x: -inner, y: high });
  const right = clipToBox(obstacle.outline, { x: inner, y: low }, { x: outer, y: high });
  return left.length > 0 || right.length > 0;
}
