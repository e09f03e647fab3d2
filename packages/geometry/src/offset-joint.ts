import type { OffsetPiece } from './offset-piece.ts';
import type { Point, Segment } from './outline.ts';
import { carriersMeet } from './piece-meeting.ts';

/** A mitre may reach this many times the distance; beyond it the corner is rounded. */
export const MITRE_LIMIT = 4;

/** Where one piece ends, the next begins, and what is drawn from one to the other. */
export interface Joint {
  readonly before: Point;
  readonly after: Point;
  readonly between: readonly Segment[];
}

/** Joins two pieces that shared a corner. Undefined when they no longer meet. */
export function joinCorner(
  before: OffsetPiece,
  after: OffsetPiece,
  how: { readonly toRight: number; readonly corners: 'sharp' | 'round' },
): Joint | undefined {
  if (Math.hypot(before.to.x - after.from.x, before.to.y - after.from.y) <= 1e-7) return meetAt(before.to);
  const [a, b] = [before.normalTo, after.normalFrom];
  const turnsLeft = a.x * b.y - a.y * b.x > 0;
  if (turnsLeft === how.toRight > 0) return bridgeGap(before, after, how);
  // Where both are lines the mitre formula gives their meeting without loss of digits.
  if (before.kind === 'line' && after.kind === 'line' && cosine(a, b) > -0.999)
    return meetAt(mitre(before, after, how.toRight));
  return joinCarriers(before, after);
}

/** Joins two pieces, between which others have gone, where their lines or circles meet, nearest to where they were. */
export function joinCarriers(before: OffsetPiece, after: OffsetPiece): Joint | undefined {
  const middle = { x: (before.to.x + after.from.x) / 2, y: (before.to.y + after.from.y) / 2 };
  const away = (p: Point): number => Math.hypot(p.x - middle.x, p.y - middle.y);
  const [nearest] = [...carriersMeet(before.carrier, after.carrier)].sort((p, q) => away(p) - away(q));
  return nearest === undefined ? undefined : meetAt(nearest);
}

/** True when a corner with these normals is too acute for a mitre. */
export function beyondMitre(a: Point, b: Point): boolean {
  // Reach of a mitre over the distance: √(2 / (1 + cos θ)).
  return 2 > MITRE_LIMIT ** 2 * (1 + cosine(a, b));
}

function bridgeGap(
  before: OffsetPiece,
  after: OffsetPiece,
  how: { readonly toRight: number; readonly corners: 'sharp' | 'round' },
): Joint {
  if (how.corners === 'round' || beyondMitre(before.normalTo, after.normalFrom)) {
    const sense = how.toRight > 0 ? 'ccw' : 'cw';
    const arc: Segment = { kind: 'arc', to: after.from, centre: before.original.to, sense };
    return { before: before.to, after: after.from, between: [arc] };
  }
  const tip = mitre(before, after, how.toRight);
  const toTip: readonly Segment[] = before.kind === 'line' ? [] : [{ kind: 'line', to: tip }];
  const fromTip: readonly Segment[] = after.kind === 'line' ? [] : [{ kind: 'line', to: after.from }];
  return {
    before: before.kind === 'line' ? tip : before.to,
    after: after.kind === 'line' ? tip : after.from,
    between: [...toTip, ...fromTip],
  };
}

/** Where the tangents at the corner meet after both have moved: corner + d (n₁ + n₂) / (1 + n₁·n₂). */
function mitre(before: OffsetPiece, after: OffsetPiece, toRight: number): Point {
  const [a, b, corner] = [before.normalTo, after.normalFrom, before.original.to];
  const reach = toRight / (1 + cosine(a, b));
  return { x: corner.x + reach * (a.x + b.x), y: corner.y + reach * (a.y + b.y) };
}

const meetAt = (point: Point): Joint => ({ before: point, after: point, between: [] });
const cosine = (a: Point, b: Point): number => a.x * b.x + a.y * b.y;
