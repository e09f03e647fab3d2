import type { HarnessRun } from './assembly.ts';
import type { Way } from './harness-tree.ts';
import type { Point } from './outline.ts';

export interface SectionRule {
  readonly at: 'inner' | 'outer';
  readonly lengthMm: number;
  readonly sizeMm: number;
  /** Bare line left between the section and its end of the arm. */
  readonly clearMm: number;
}

export interface RunRules {
  readonly level: number;
  readonly sizeMm: number;
  readonly section: SectionRule | undefined;
}

/** Length of a way along its corners, mm. */
export function wayLength(way: Way): number {
  let total = 0;
  for (let index = 0; index + 1 < way.length; index++) total += distance(pointAt(way, index), pointAt(way, index + 1));
  return total;
}

/** Cuts a way into straight pieces of one size: at its corners, and where the section begins or ends. */
export function runsOfWay(way: Way, rules: RunRules): HarnessRun[] {
  const { section } = rules;
  const total = wayLength(way);
  const changes = section ? sectionEnds(section, total) : undefined;
  const runs: HarnessRun[] = [];
  let done = 0;
  for (let index = 0; index + 1 < way.length; index++) {
    const from = pointAt(way, index);
    const to = pointAt(way, index + 1);
    const length = distance(from, to);
    for (const [start, end] of spans(
      length,
      (changes ?? []).map((change) => change - done),
    )) {
      const middle = done + (start + end) / 2;
      const inSection = section !== undefined && changes !== undefined && middle > changes[0] && middle < changes[1];
      runs.push({
        level: rules.level,
        from: along(from, to, start / length),
        to: along(from, to, end / length),
        lengthMm: end - start,
        sizeMm: inSection ? section.sizeMm : rules.sizeMm,
        role: inSection ? 'section' : 'line',
      });
    }
    done += length;
  }
  return runs;
}

/** Consecutive runs of one size as one way, so that a corner inside it can be drawn as a corner. */
export function waysOfOneSize(
  runs: readonly HarnessRun[],
): { way: Point[]; sizeMm: number; role: HarnessRun['role'] }[] {
  const ways: { way: Point[]; sizeMm: number; role: HarnessRun['role'] }[] = [];
  for (const run of runs) {
    const last = ways.at(-1);
    if (last && last.sizeMm === run.sizeMm && last.role === run.role) last.way.push(run.to);
    else ways.push({ way: [run.from, run.to], sizeMm: run.sizeMm, role: run.role });
  }
  return ways;
}

/** Where the section begins and ends along the arm. */
function sectionEnds({ at, lengthMm, clearMm }: SectionRule, total: number): readonly [number, number] {
  return at === 'inner' ? [clearMm, clearMm + lengthMm] : [total - clearMm - lengthMm, total - clearMm];
}

/** Splits [0, length] at the changes inside it, unless that leaves a piece shorter than a micrometre. */
function spans(length: number, changes: readonly number[]): [number, number][] {
  const cuts = [0, ...changes.filter((change) => change > 1e-3 && change < length - 1e-3), length];
  return cuts.slice(1).map((end, index) => [cuts[index] ?? 0, end]);
}

function along(from: Point, to: Point, part: number): Point {
  return { x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part };
}

function distance(from: Point, to: Point): number {
  return Math.hypot(to.x - from.x, to.y - from.y);
}

function pointAt(way: Way, index: number): Point {
  const point = way[index];
  if (!point) throw new RangeError(`no point ${index} on a way of ${way.length}`);
  return point;
}
