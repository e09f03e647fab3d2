import type { Design, Finding, HarnessLevel, Orientation } from '@sheetwave/design';
import type { Element } from './assembly.ts';
import { errorFinding, mm } from './finding.ts';
import { feedDirection, onGrid } from './lattice.ts';
import type { Point } from './outline.ts';

/** From a junction to one child: the corners of the way, junction first, child last. */
export type Way = readonly Point[];

/** One junction of the harness and the ways to its children; level 0 is at the coax. */
export interface Junction {
  readonly level: number;
  readonly at: Point;
  readonly ways: readonly Way[];
}

export interface HarnessTree {
  /** From the coax outward, level by level. */
  readonly junctions: readonly Junction[];
  readonly coaxPoint: Point;
}

interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly points: readonly Point[];
}

/**
 * The corporate tree over the feed points: every level joins neighbours in pairs, so all ways from the coax to an
 * element are of one length and the elements are in phase.
 */
export function corporateTree(
  design: Design,
  elements: readonly Element[],
  levels: readonly HarnessLevel[],
): HarnessTree {
  let grid: Grid = {
    columns: design.lattice.columns,
    rows: design.lattice.rows,
    points: elements.map((element) => element.feedPoint),
  };
  const byLevel: Junction[][] = [];
  for (let level = levels.length - 1; level >= 0; level--) {
    const rules = levels[level];
    if (!rules) throw new RangeError(`no level ${level}`);
    const joined = joinPairs(grid, { level, rules, orientation: design.lattice.orientation });
    byLevel.unshift(joined.junctions);
    grid = joined.grid;
  }
  const [coaxPoint] = grid.points;
  if (!coaxPoint || grid.points.length !== 1) {
    throw new Error(
      `${levels.length} levels leave ${grid.points.length} junctions of a ${design.lattice.rows} x ${design.lattice.columns} array`,
    );
  }
  return { junctions: byLevel.flat(), coaxPoint };
}

/** Straight ways from the middle of the feed points to each of them: equal only for 2 elements and for 2 x 2. */
export function star(elements: readonly Element[]): HarnessTree {
  const feeds = elements.map((element) => element.feedPoint);
  const coaxPoint = centroid(feeds);
  return { junctions: [{ level: 0, at: coaxPoint, ways: feeds.map((feed) => [coaxPoint, feed]) }], coaxPoint };
}

/** One element on a board: a straight line from the coax to the middle of the fed edge, and on to the feed point. */
export function leadToPatch(design: Design, elements: readonly Element[], lengthMm: number): HarnessTree {
  const [element] = elements;
  if (!element) throw new Error('an array has at least one element');
  const away = feedDirection(design.lattice.orientation);
  const reach = lengthMm + (design.feed.kind === 'inset' ? design.feed.depthMm : 0);
  const coaxPoint = onGrid({ x: element.feedPoint.x + away.x * reach, y: element.feedPoint.y + away.y * reach });
  return { junctions: [{ level: 0, at: coaxPoint, ways: [[coaxPoint, element.feedPoint]] }], coaxPoint };
}

interface Joining {
  readonly level: number;
  readonly rules: HarnessLevel;
  readonly orientation: Orientation;
}

function joinPairs(grid: Grid, joining: Joining): { grid: Grid; junctions: Junction[] } {
  const alongColumns = joining.rules.joins === 'columns';
  const columns = alongColumns ? grid.columns / 2 : grid.columns;
  const rows = alongColumns ? grid.rows : grid.rows / 2;
  const junctions: Junction[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const pair = alongColumns
        ? [nodeAt(grid, row, 2 * column), nodeAt(grid, row, 2 * column + 1)]
        : [nodeAt(grid, 2 * row, column), nodeAt(grid, 2 * row + 1, column)];
      junctions.push(junctionOf(pair, joining));
    }
  }
  return { grid: { columns, rows, points: junctions.map((junction) => junction.at) }, junctions };
}

function nodeAt(grid: Grid, row: number, column: number): Point {
  const point = grid.points[row * grid.columns + column];
  if (!point) throw new RangeError(`no junction in row ${row}, column ${column}`);
  return point;
}

function junctionOf(children: readonly Point[], { level, rules, orientation }: Joining): Junction {
  const stem = stemVector(rules, orientation);
  const barEnds = children.map((child) => onGrid({ x: child.x + stem.x, y: child.y + stem.y }));
  const at = centroid(barEnds);
  const ways = children.map((child, index) => {
    const end = barEnds[index];
    return end && rules.stemMm > 0 ? [at, end, child] : [at, child];
  });
  return { level, at, ways };
}

/** Stems lead away from the patches: toward the fed edge, or to the side when the bar itself runs that way. */
function stemVector(rules: HarnessLevel, orientation: Orientation): Point {
  const feed = feedDirection(orientation);
  const barAlongFeed = (rules.joins === 'rows') === (orientation === 'vertical');
  const direction = barAlongFeed ? (orientation === 'vertical' ? { x: -1, y: 0 } : { x: 0, y: -1 }) : feed;
  return { x: direction.x * rules.stemMm, y: direction.y * rules.stemMm };
}

function centroid(points: readonly Point[]): Point {
  const sum = points.reduce((total, point) => ({ x: total.x + point.x, y: total.y + point.y }), { x: 0, y: 0 });
  return onGrid({ x: sum.x / points.length, y: sum.y / points.length });
}

/** Two levels that join along the same line lie on top of each other unless the inner one is held off by a stem. */
export function treeFindings(levels: readonly HarnessLevel[], leastStemMm: number): Finding[] {
  const findings: Finding[] = [];
  for (let level = 0; level + 1 < levels.length; level++) {
    const inner = levels[level];
    const outer = levels[level + 1];
    if (!inner || !outer || inner.joins !== outer.joins || inner.stemMm >= leastStemMm) continue;
    findings.push(
      errorFinding('harness-overlaps', `harness.level[${level}].stem`, {
        value: mm(inner.stemMm),
        allowed: `lets levels ${level} and ${level + 1} lie on top of each other, since both join ${inner.joins}`,
        remedy: `give this level a stem of at least ${mm(leastStemMm)}`,
      }),
    );
  }
  return findings;
}
