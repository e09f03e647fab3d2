import { arcCovers, type Sense } from './arc.ts';
import { grownBox, pieceGrid } from './box-grid.ts';
import { boundsOfPoints } from './contour-measure.ts';
import type { Contour, Point, Segment } from './outline.ts';
import type { Carrier } from './piece-meeting.ts';
import type { ArcPiece } from './pieces.ts';

/** How far a corner of the polygon may lie off the arc it stands for, mm: flattening and rounding together. */
const OFF_ARC = 3e-5;
/** Shorter straight edges are left over from flattening beside a touching arc. */
const CRUMB = 1e-3;
interface Run {
  readonly from: Point;
  readonly to: Point;
  readonly carrier: Carrier;
  /** Only of arcs. */
  readonly sense: Sense | undefined;
}

/**
 * A contour with arcs from a polygon that was made of flattened ones (within 0.02 µm): edges that lie on one of the given arcs
 * become arcs about its centre. Corners stay where the polygon has them.
 */
export function recoverArcs(polygon: readonly Point[], arcs: readonly ArcPiece[]): Contour {
  const runs = joinRuns(edgeRuns(polygon, arcs)).filter((run) => run.sense !== undefined || chord(run) > CRUMB);
  const [only] = runs;
  if (only === undefined) throw new Error('arc recovery: no edges');
  if (runs.length === 1 && only.carrier.kind === 'circle')
    return { kind: 'circle', centre: only.carrier.centre, radiusMm: only.carrier.radiusMm };
  const segments = runs.map((run, i): Segment => {
    const to = (runs[(i + 1) % runs.length] ?? only).from;
    if (run.carrier.kind === 'line' || run.sense === undefined) return { kind: 'line', to };
    return { kind: 'arc', to, centre: run.carrier.centre, sense: run.sense };
  });
  return { kind: 'path', start: only.from, segments };
}

function edgeRuns(polygon: readonly Point[], arcs: readonly ArcPiece[]): readonly Run[] {
  const near = pieceGrid(arcs);
  return polygon.map((from, i): Run => {
    const to = polygon[(i + 1) % polygon.length] ?? from;
    const box = grownBox(boundsOfPoints([from, to]), 2 * OFF_ARC);
    const arc = near.near(box).find((candidate) => edgeLiesOn(from, to, candidate));
    if (arc === undefined) {
      const direction = { x: to.x - from.x, y: to.y - from.y };
      return { from, to, sense: undefined, carrier: { kind: 'line', through: from, direction } };
    }
    const { centre, radiusMm } = arc;
    const left = (from.x - centre.x) * (to.y - centre.y) - (from.y - centre.y) * (to.x - centre.x) > 0;
    return { from, to, sense: left ? 'ccw' : 'cw', carrier: { kind: 'circle', centre, radiusMm } };
  });
}

function edgeLiesOn(from: Point, to: Point, arc: ArcPiece): boolean {
  const off = (p: Point): number => Math.abs(Math.hypot(p.x - arc.centre.x, p.y - arc.centre.y) - arc.radiusMm);
  if (off(from) > OFF_ARC || off(to) > OFF_ARC) return false;
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  if (off(middle) > 2 * OFF_ARC) return false;
  const angle = Math.atan2(middle.y - arc.centre.y, middle.x - arc.centre.x);
  return arcCovers(arc.startRad, arc.sweepRad, angle);
}

/** Neighbours on one circle become one run; the ring is entered at a place where the carrier changes. */
function joinRuns(ring: readonly Run[]): readonly Run[] {
  const first = ring.findIndex((run, i) => !sameArc(ring[(i + ring.length - 1) % ring.length] ?? run, run));
  const ordered = first < 0 ? ring : [...ring.slice(first), ...ring.slice(0, first)];
  const joined: Run[] = [];
  for (const run of ordered) {
    const last = joined.at(-1);
    if (last !== undefined && sameArc(last, run)) joined[joined.length - 1] = { ...last, to: run.to };
    else joined.push(run);
  }
  return joined;
}

function sameArc(a: Run, b: Run): boolean {
  if (a.carrier.kind === 'line' || b.carrier.kind === 'line' || a.sense !== b.sense) return false;
  const apart = Math.hypot(a.carrier.centre.x - b.carrier.centre.x, a.carrier.centre.y - b.carrier.centre.y);
  return apart <= 1e-6 && Math.abs(a.carrier.radiusMm - b.carrier.radiusMm) <= 1e-6;
}

function chord(run: Run): number {
  return Math.hypot(run.to.x - run.from.x, run.to.y - run.from.y);
}
