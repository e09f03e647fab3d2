import {
  type Assembly,
  combineFlats,
  type Flat,
  flattenContour,
  type HarnessRun,
  type HarnessSplit,
  type Point,
  placeContour,
} from '@sheetwave/geometry';
import { area } from './layered.ts';

/** Free around every solder joint. */
const JOINT_MM = 3;
const CLEAR_MM = 0.5;
const STEP_MM = 0.5;

/** A piece of conductor that a saddle may carry, and what lies around it. */
export interface Stretch {
  readonly run: HarnessRun;
  readonly around: readonly Flat[];
}

/** Room that a saddle takes beside a conductor's axis. */
export interface Room {
  readonly lengthMm: number;
  /** From the axis to the far side of its ledge, and to where it stands once pulled out. */
  readonly underMm: number;
  readonly outMm: number;
}

/**
 * The pieces of conductor of the split nearest to the coax of every level, with the patches and other conductors near them.
 * All splits of a level are alike, and there it is tightest.
 */
export function stretches(assembly: Assembly, reachMm: number): readonly Stretch[] {
  const runs = assembly.harness.flatMap((split) => split.arms.flat());
  return typicalSplits(assembly).flatMap((split) =>
    split.arms.flat().map((run) => ({ run, around: obstacles(assembly, runs, { run, reachMm }) })),
  );
}

function typicalSplits({ harness, coaxPoint }: Assembly): readonly HarnessSplit[] {
  const away = ({ at }: HarnessSplit): number => Math.hypot(at.x - coaxPoint.x, at.y - coaxPoint.y);
  const levels = new Map<number, HarnessSplit>();
  for (const split of harness) {
    const known = levels.get(split.level);
    if (known === undefined || away(split) < away(known)) levels.set(split.level, split);
  }
  return [...levels.values()];
}

function obstacles(
  assembly: Assembly,
  runs: readonly HarnessRun[],
  { run, reachMm }: { readonly run: HarnessRun; readonly reachMm: number },
): readonly Flat[] {
  const middle = { x: (run.from.x + run.to.x) / 2, y: (run.from.y + run.to.y) / 2 };
  const near = (at: Point, sizeMm: number): boolean =>
    Math.hypot(at.x - middle.x, at.y - middle.y) < reachMm + run.lengthMm / 2 + sizeMm;
  const others = runs
    .filter(
      (other) =>
        other !== run &&
        near({ x: (other.from.x + other.to.x) / 2, y: (other.from.y + other.to.y) / 2 }, other.lengthMm / 2),
    )
    .map((other) => strip(other.from, other.to, other.sizeMm / 2 + CLEAR_MM));
  return [...others, ...patchFlats(assembly, near)];
}

/** Patches, or the boards that carry them, whose spacers lie within their outlines. */
function patchFlats(assembly: Assembly, near: (at: Point, sizeMm: number) => boolean): readonly Flat[] {
  const outlines = new Map(
    assembly.parts.flatMap((part) =>
      (part.form === 'plate' || part.form === 'board') && part.role === 'patch'
        ? [[part.id, part.outline.outer] as const]
        : [],
    ),
  );
  return assembly.placements.flatMap(({ part, at, turnDeg }) => {
    const outline = outlines.get(part);
    if (outline === undefined) return [];
    const flat: Flat = [
      flattenContour(placeContour(outline, { at, turnDeg }), { toleranceMm: 0.05, corners: 'around' }),
    ];
    const sizeMm = Math.max(...flat.flat().map((p) => Math.hypot(p.x - at.x, p.y - at.y)));
    return near(at, sizeMm) ? [flat] : [];
  });
}

/** True when a saddle finds a place along the stretch, on either side of it, and can be pulled out there. */
export function hasPlace({ run, around }: Stretch, room: Room): boolean {
  const [first, last] = [JOINT_MM + room.lengthMm / 2, run.lengthMm - JOINT_MM - room.lengthMm / 2];
  for (let along = first; along <= last + 1e-9; along += STEP_MM)
    for (const side of [1, -1] as const) {
      const flat = footprint(run, along, { ...room, side });
      if (around.every((obstacle) => Math.abs(area(combineFlats('intersection', flat, obstacle))) < 1e-6)) return true;
    }
  return false;
}

function footprint(run: HarnessRun, along: number, room: Room & { readonly side: 1 | -1 }): Flat {
  const [x, y] = [(run.to.x - run.from.x) / run.lengthMm, (run.to.y - run.from.y) / run.lengthMm];
  const across = (room.outMm - room.underMm) / 2;
  const half = (room.outMm + room.underMm) / 2 + CLEAR_MM;
  const at = (s: number): Point => ({
    x: run.from.x + x * s - y * across * room.side,
    y: run.from.y + y * s + x * across * room.side,
  });
  return strip(at(along - room.lengthMm / 2), at(along + room.lengthMm / 2), half);
}

/** A rectangle around a way, square at its ends. */
function strip(from: Point, to: Point, halfMm: number): Flat {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const [x, y] = [((to.x - from.x) / length) * halfMm, ((to.y - from.y) / length) * halfMm];
  return [
    [
      { x: from.x + y, y: from.y - x },
      { x: to.x + y, y: to.y - x },
      { x: to.x - y, y: to.y + x },
      { x: from.x - y, y: from.y + x },
    ],
  ];
}
